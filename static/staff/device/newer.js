// A newer version of the device's worker takes the place of the earlier one as soon as that has nothing to do.

const LOOK_MS = 5000;

export function letNewerTakeOver(registration) {
  setInterval(() => {
    if (registration?.waiting) registration.active?.postMessage("give way");
  }, LOOK_MS);
}
