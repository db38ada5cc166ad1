// Small helpers for pages: parts by name, lists drawn anew, forms in their rows, and taps.

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

// A form in the row that it was opened from, until `send(about, words)` has kept them or they are left; then `done()`.
export class RowForm {
  #form;
  #words;
  #about = null;
  #drawn;

  constructor(name, send, done, empty) {
    const form = (this.#form = byId(name));
    const words = (this.#words = byId(`${name}-words`));
    const error = byId(`${name}-error`);
    const close = () => {
      this.#about = null;
      form.hidden = true;
      done();
    };
    onSubmit(form, async () => {
      const [about, said] = [this.#about, words.value.trim()];
      error.textContent = said ? "" : empty;
      if (!said || !(await send(about, said)) || words.value.trim() !== said) return;
      words.value = "";
      if (about === this.#about) close(); // else open elsewhere by now
    });
    byId(`${name}-not`).addEventListener("click", () => {
      words.value = error.textContent = "";
      close();
    });
  }

  open(about, row) {
    this.#about = about;
    this.stand(about, row);
    this.#form.hidden = false;
    this.#words.focus();
  }

  stand({ id }, row) {
    if (this.#about?.id === id) row.append(this.#form);
  }

  // Nobody loses the field that they are typing in.
  redraw(list, fresh, rows) {
    if (this.#about && fresh === this.#drawn) return;
    this.#drawn = fresh;
    const typing = this.#form.contains(document.activeElement);
    list.after(this.#form);
    redraw(list, rows());
    if (typing) this.#words.focus();
  }
}

function rest(button, milliseconds) {
  if (!(milliseconds > 0)) return;
  button.setAttribute("aria-disabled", "true");
  setTimeout(() => button.removeAttribute("aria-disabled"), Math.min(milliseconds, DOUBLE_TAP_MS));
}
