// Push to this browser of a member of staff.

import { pushPossible, renew, subscribe } from "../shared/push.js";
import { ask } from "../shared/requests.js";

const SAID = { on: "Messages will come to this browser.", refused: "This browser does not allow it.", failed: "This browser cannot get messages." };
const button = document.getElementById("push-on");

button.hidden = !pushPossible();
button.addEventListener("click", async () => {
  const registration = await navigator.serviceWorker.getRegistration("/clinic/");
  const outcome = registration ? await subscribe(registration, document.getElementById("push").dataset.key, send) : "failed";
  document.getElementById("push-told").textContent = SAID[outcome];
});
await renew(await navigator.serviceWorker?.getRegistration("/clinic/"), send).catch(() => {});

function send(subscription) {
  return ask("POST", "/api/v1/clinic/push", subscription);
}
