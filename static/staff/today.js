// The list stays where it is: who came is said in place, and whoever comes back finds the line they left.

import { timed } from "../shared/requests.js";

const PLACE = "today-place";
const LIST = ".today-list";

document.addEventListener("submit", (event) => {
  const line = event.target instanceof Element ? event.target.closest(`${LIST} tr[id]`) : null;
  if (!line) return;
  event.preventDefault();
  pressed(event.target, line);
});
window.addEventListener("pagehide", () => sessionStorage.setItem(PLACE, JSON.stringify({ page: location.search, top: scrollY })));
comeBack();

async function pressed(form, line) {
  const page = await answerTo(form);
  if (!page?.querySelector(LIST)) {
    form.submit();
    return;
  }
  const next = line.nextElementSibling;
  const fresh = page.getElementById(line.id); // none where what is shown is not for this line any more
  if (fresh) line.replaceWith(fresh);
  else line.remove();
  document.querySelector(".filters").replaceWith(page.querySelector(".filters"));
  (fresh ?? next)?.querySelector("button")?.focus({ preventScroll: true });
}

// The page as it is after the press; nothing where it did not come through, so that the browser sends it itself.
async function answerTo(form) {
  try {
    const answer = await timed(form.action, { method: "POST", body: new FormData(form) });
    return answer.ok ? new DOMParser().parseFromString(await answer.text(), "text/html") : null;
  } catch {
    return null;
  }
}

function comeBack() {
  const { page, top } = JSON.parse(sessionStorage.getItem(PLACE) ?? "{}");
  if (page !== location.search || !top) return;
  if (location.hash) history.replaceState(history.state, "", location.pathname + location.search);
  scrollTo(0, top);
}
