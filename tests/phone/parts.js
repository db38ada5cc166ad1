// A page of stand-ins: each part is there as soon as somebody asks for it, keeps what is written on it, and can be pressed.

export class Part {
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
    this.children = children;
  }

  append(...children) {
    this.children.push(...children);
  }

  // What it says, its children's words with it.
  get said() {
    return [this.textContent, ...this.children.map((child) => child.said ?? child)].filter(Boolean).join(" ");
  }

  after() {}
  closest() { return this; }
  contains() { return false; }
  focus() {}
  reset() {}
  scrollIntoView() {}
  getAttribute(name) { return this[name] ?? null; }
  setAttribute(name, value) { this[name] = value; }
}

// The page, by id; texts are their keys. `kinds` are those of parts that are more than one.
export function parts(kinds = {}) {
  const known = {};
  const byId = (id) => (known[id] ??= new (kinds[id] ?? Part)());
  const documentElement = { lang: "en", dataset: {} };
  globalThis.document = { documentElement, getElementById: byId, createElement: () => new Part(), querySelector: () => null };
  return byId;
}
