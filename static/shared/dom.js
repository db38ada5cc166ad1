// Small helpers for pages: their parts by name, and lists that are drawn again whenever something changes.

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
