// A page of stand-ins: each part is there as soon as somebody asks for it, keeps what is written on it, and can be pressed.

export class Part {
  parent; // none: the page itself; null: nowhere

  constructor() {
    Object.assign(this, { hidden: false, disabled: false, value: "", textContent: "", dataset: {}, style: {}, children: [], parts: {}, lists: {}, listeners: {} });
  }

  get content() {
    return { cloneNode: () => ({ firstElementChild: new Part() }) };
  }

  addEventListener(kind, told) {
    this.listeners[kind] = told;
  }

  async tell(kind, event = {}) {
    await this.listeners[kind]({ preventDefault() {}, target: this, detail: 0, ...event });
  }

  querySelector(selector) {
    return (this.parts[selector] ??= new Part());
  }

  querySelectorAll(selector) {
    return this.lists[selector] ?? [];
  }

  replaceChildren(...children) {
    for (const child of this.children) if (child.parent === this) child.parent = null;
    this.children = [];
    this.append(...children);
  }

  append(...children) {
    this.children.push(...children);
    for (const child of children) if (child instanceof Part) child.parent = this;
  }

  after(part) {
    part.parent = this.parent;
  }

  get isOnThePage() {
    return this.parent === undefined || Boolean(this.parent?.isOnThePage);
  }

  // What it says, its children's words with it.
  get said() {
    return [this.textContent, ...this.children.map((child) => child.said ?? child)].filter(Boolean).join(" ");
  }

  closest() { return this; }
  contains() { return false; }
  focus() {}
  reset() {}
  scrollIntoView() {}
  getAttribute(name) { return this[name] ?? null; }
  setAttribute(name, value) { this[name] = value; }
  removeAttribute(name) { delete this[name]; }
}

// The page, by id; texts are their keys. `kinds` are those of parts that are more than one.
export function parts(kinds = {}) {
  const known = {};
  const byId = (id) => (known[id] ??= new (kinds[id] ?? Part)());
  const documentElement = { lang: "en", dataset: {} };
  globalThis.document = { documentElement, getElementById: byId, createElement: () => Object.assign(new Part(), { parent: null }), querySelector: () => null };
  return byId;
}
