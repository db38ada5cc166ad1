// At sign-in this device gets a key of the day that only this password opens: for work without a signal.

import { makeDayKey, openDeviceDatabase } from "./device/day-key.js";

const form = document.getElementById("sign-in");

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  form.querySelector("button").textContent = "Signing in…";
  try {
    await makeDayKey(await openDeviceDatabase(), form.elements.email.value, form.elements.password.value);
  } catch (error) {
    console.info("no work without a signal on this device:", error.message);
  }
  form.submit();
});
