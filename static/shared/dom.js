// Small helpers for pages: their parts by name, lists that are drawn again whenever something changes, and taps.

export const DOUBLE_TAP_MS = 500;

export function byId(id) {
  return document.getElementById(id);
}

export function item(words) {
  const made = document.createElement("li");
  made.textContent = words;
  return made;
}

export function paragraph(words) {
  const made = document.createElement("p");
  made.textContent = words;
  return made;
}

// Somebody at the keyboard stays on the button they just pressed.
export function redraw(list, children) {
  const focused = list.contains(document.activeElement) ? document.activeElement.getAttribute("aria-label") : null;
  list.replaceChildren(...children);
  if (focused) [...list.querySelectorAll("button")].find((button) => button.getAttribute("aria-label") === focused)?.focus();
}

// Buttons of which the second tap of a double one does nothing. One that is drawn anew meanwhile is still the same: it has the
// label from before the tap or after it.
export class Taps {
  #resting = new Map();

  on(button, press) {
    const label = () => button.getAttribute("aria-label") ?? button;
    rest(button, this.#resting.get(label()) - performance.now());
    button.addEventListener("click", (event) => {
      if (button.getAttribute("aria-disabled") === "true") return;
      const until = performance.now() + DOUBLE_TAP_MS;
      this.#resting.set(label(), until);
      rest(button, DOUBLE_TAP_MS);
      press(event);
      this.#resting.set(label(), until);
    });
  }
}

// A form that the second tap of a double one does not send again, nor any other while it is being sent. `send` is given its button.
export function onSubmit(form, send) {
  const button = form.querySelector("button");
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (button.getAttribute("aria-disabled") === "true") return;
    button.setAttribute("aria-disabled", "true");
    try {
      await send(button);
    } finally {
      rest(button, DOUBLE_TAP_MS);
    }
  });
}

function rest(button, milliseconds) {
  if (!(milliseconds > 0)) return;
  button.setAttribute("aria-disabled", "true");
  setTimeout(() => button.removeAttribute("aria-disabled"), Math.min(milliseconds, DOUBLE_TAP_MS));
}
