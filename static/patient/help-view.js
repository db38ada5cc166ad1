// Help: what to call for, from the rulebook in force.

import { byId, item } from "../shared/dom.js";

export class HelpView {
  show({ pack: { dangers = [] } }) {
    for (const soon of ["now", "today"]) {
      const words = dangers.filter((danger) => danger.how_soon === soon).map((danger) => danger.words);
      byId(`dangers-${soon}`).hidden = words.length === 0;
      byId(`dangers-${soon}-list`).replaceChildren(...words.map(item));
    }
    byId("dangers-unknown").hidden = dangers.length > 0;
  }
}
