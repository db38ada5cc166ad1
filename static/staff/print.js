// Loaded before the page is shown, so that the button works from the first moment.
document.addEventListener("click", ({ target }) => {
  if (target instanceof Element && target.closest("[data-print]")) window.print();
});
