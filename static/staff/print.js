// What is folded on the screen and belongs on paper is open while it prints.
const folded = () => document.querySelectorAll("details[data-printed]:not([open])");
addEventListener("beforeprint", () => {
  for (const part of folded()) Object.assign(part, { open: true }).toggleAttribute("data-folded", true);
});
addEventListener("afterprint", () => {
  for (const part of document.querySelectorAll("details[data-folded]")) part.removeAttribute("open");
});

// Loaded before the page is shown, so that the button works from the first moment.
document.addEventListener("click", ({ target }) => {
  if (target instanceof Element && target.closest("[data-print]")) window.print();
});
