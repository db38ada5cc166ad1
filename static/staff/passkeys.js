// Passkeys (Web Authentication): asks the browser for what a form's <template> says, and sends the answer in the form.

import { noDayKey, openDeviceDatabase } from "./device/day-key.js";

const FAILED = {
  NotAllowedError: "No passkey was chosen, or it took too long.",
  InvalidStateError: "This device has a passkey of yours already.",
  SecurityError: "Passkeys do not work at this address.",
};
const CARRIED = ["clientDataJSON", "attestationObject", "authenticatorData", "signature", "userHandle"];

for (const form of document.querySelectorAll("form[data-passkey]")) {
  if (!window.PublicKeyCredential) {
    document.getElementById("no-passkeys")?.removeAttribute("hidden");
    continue;
  }
  form.hidden = false;
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    answer(form);
  });
}

// Asks, and sends the form with what the device answered; says beside the button why it did not.
async function answer(form) {
  const told = form.querySelector("[role=status]");
  told.textContent = "";
  try {
    const asked = options(JSON.parse(form.querySelector("template").content.textContent));
    const made = form.dataset.passkey === "create"
      ? await navigator.credentials.create({ publicKey: /** @type {any} */ (asked) })
      : await navigator.credentials.get({ publicKey: /** @type {any} */ (asked) });
    form.elements.answer.value = JSON.stringify(carried(made));
    if ("alone" in form.dataset) await openDeviceDatabase().then(noDayKey).catch((error) => console.info("nothing is kept here:", error.message));
  } catch (error) {
    told.textContent = FAILED[error.name] ?? "This browser could not use a passkey.";
    return;
  }
  form.submit();
}

// What the server asks, with bytes where the browser wants bytes.
function options(asked) {
  const named = (list) => (list ?? []).map((one) => ({ ...one, id: bytes(one.id) }));
  const user = asked.user && { user: { ...asked.user, id: bytes(asked.user.id) } };
  return {
    ...asked, ...user, challenge: bytes(asked.challenge),
    excludeCredentials: named(asked.excludeCredentials), allowCredentials: named(asked.allowCredentials),
  };
}

// What the device answered, with text where there are bytes.
function carried(made) {
  const held = CARRIED.filter((name) => made.response[name]).map((name) => [name, text(made.response[name])]);
  return { id: made.id, rawId: text(made.rawId), type: made.type, response: Object.fromEntries(held) };
}

const text = (buffer) =>
  btoa(String.fromCharCode(...new Uint8Array(buffer))).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
const bytes = (value) =>
  Uint8Array.from(atob(value.replaceAll("-", "+").replaceAll("_", "/")), (sign) => sign.charCodeAt(0));
