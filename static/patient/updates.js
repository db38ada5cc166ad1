// The service worker: a new version waits until the person takes it, so nothing half typed is lost.

export async function watchForUpdates(notice, button) {
  if (!("serviceWorker" in navigator)) return;
  let registration;
  try {
    registration = await navigator.serviceWorker.register("/sw.js", { scope: "/me/", type: "module" });
  } catch (error) {
    console.info("This browser keeps no pages for later:", error.message);
    return;
  }
  if (!registration) return;
  let taking = false;
  const offer = (worker) => {
    notice.hidden = false;
    button.onclick = () => {
      taking = true;
      worker.postMessage("take over");
    };
  };
  if (registration.waiting && navigator.serviceWorker.controller) offer(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const worker = registration.installing;
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" && navigator.serviceWorker.controller) offer(worker);
    });
  });
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (taking) location.reload();
  });
}
