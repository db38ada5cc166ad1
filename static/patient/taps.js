// The second tap of a double one does nothing. A button that is drawn anew meanwhile is still the same one: it has its label.

export const DOUBLE_TAP_MS = 500;
const resting = new Map();

export function onTap(button, press) {
  const label = () => button.getAttribute("aria-label") ?? button;
  rest(button, resting.get(label()) - performance.now());
  button.addEventListener("click", (event) => {
    if (button.getAttribute("aria-disabled") === "true") return;
    resting.set(label(), performance.now() + DOUBLE_TAP_MS);
    rest(button, DOUBLE_TAP_MS);
    press(event);
  });
}

function rest(button, milliseconds) {
  if (!(milliseconds > 0)) return;
  button.setAttribute("aria-disabled", "true");
  setTimeout(() => button.removeAttribute("aria-disabled"), Math.min(milliseconds, DOUBLE_TAP_MS));
}
