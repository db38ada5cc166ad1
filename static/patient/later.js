// The pages, and the choice of messages, that nobody needs at first sight: fetched when one is opened; from the second visit on
// the worker keeps them.

import { byId } from "../shared/dom.js";
import { timed } from "../shared/requests.js";

const NAMES = ["living", "history", "helpers", "install", "privacy"];

export class Later {
  #into;
  #opening;

  // Once they are here, `into(module)` is told.
  constructor(into) {
    this.#into = into;
  }

  // Whether the page of that name is one of these and not here yet.
  misses(name) {
    return NAMES.includes(name) && !byId(name);
  }

  // Resolves with the module `later/pages.js`; fails without a signal where this phone never had it, and may be tried again.
  open() {
    this.#opening ??= this.#load().catch((error) => {
      this.#opening = undefined;
      throw error;
    });
    return this.#opening;
  }

  async #load() {
    const answer = await timed(`/me/later?language=${document.documentElement.lang}`);
    if (!answer.ok) throw new Error(`answer ${answer.status}`);
    const [module, words] = await Promise.all([import("./later/pages.js"), answer.text()]);
    const page = new DOMParser().parseFromString(words, "text/html");
    document.head.append(...page.querySelectorAll("link[rel=stylesheet]"));
    byId("away").before(...page.querySelectorAll("[data-view]"));
    byId("messages-need-signal").after(page.getElementById("messages"));
    byId("texts").append(...page.querySelectorAll("[data-text]"));
    this.#into(module);
    return module;
  }
}
