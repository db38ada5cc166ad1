// The second tap of a double one does nothing.

const DOUBLE_TAP_MS = 500;

export function onTap(button, press) {
  button.addEventListener("click", (event) => {
    if (button.getAttribute("aria-disabled") === "true") return;
    button.setAttribute("aria-disabled", "true");
    setTimeout(() => button.removeAttribute("aria-disabled"), DOUBLE_TAP_MS);
    press(event);
  });
}
