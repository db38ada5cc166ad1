"""The book of visits, and what is entered at one."""
