// At sign-in this device gets a key of the day that only this password opens: for work without a signal.

import { makeDayKey, noDayKey, openDeviceDatabase } from "./device/day-key.js";

const form = document.getElementById("sign-in");

form?.addEventListener("submit", async (event) => {
  event.preventDefault();
  form.querySelector("button").textContent = "Signing in…";
  try {
    await makeDayKey(await openDeviceDatabase(), form.elements.email.value, form.elements.password.value);
  } catch (error) {
    console.info("no work without a signal on this device:", error.message);
  }
  form.submit();
});

// Whoever comes back from the clinic's own directory typed no password here.
document.querySelector("a[data-alone]")?.addEventListener("click", async (event) => {
  event.preventDefault();
  const link = /** @type {HTMLAnchorElement} */ (event.currentTarget);
  await openDeviceDatabase().then(noDayKey).catch((error) => console.info("nothing is kept here:", error.message));
  location.assign(link.href);
});
