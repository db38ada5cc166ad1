// What a form was answered with cannot be gone back to: its place in the history becomes the form's own address, which leads
// to the card once the discharge is confirmed. Loaded before the page is shown: no press comes too early for it.
document.addEventListener("submit", ({ target }) => {
  if (target instanceof Element && target.id === "discharge") history.replaceState(null, "", location.href);
});
