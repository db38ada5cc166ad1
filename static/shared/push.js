// Web push: subscribing a browser, and what the service worker does with a push.

export function pushPossible() {
  return "serviceWorker" in navigator && "PushManager" in window && "Notification" in window;
}

// Asks the person, subscribes this browser and tells the clinic. Resolves with "on", "refused" or "failed".
export async function subscribe(registration, key, send) {
  if ((await Notification.requestPermission()) !== "granted") return "refused";
  try {
    const options = { userVisibleOnly: true, applicationServerKey: key };
    await send((await registration.pushManager.subscribe(options)).toJSON());
    return "on";
  } catch (error) {
    console.info("no push here:", error.message);
    return "failed";
  }
}

// Browsers renew subscriptions now and then: tell the clinic the one that stands.
export async function renew(registration, send) {
  const standing = await registration?.pushManager?.getSubscription();
  if (standing) await send(standing.toJSON());
}

// For the service worker: show what came, and open its page when it is pressed.
export function showPushes(worker, { icon, dir = "auto" }) {
  worker.addEventListener("push", (event) => {
    const { title, words, path, language } = event.data.json();
    const shown = { body: words, lang: language, dir, icon, badge: icon, tag: title, data: { path } };
    event.waitUntil(worker.registration.showNotification(title, shown));
  });
  worker.addEventListener("notificationclick", (event) => {
    event.notification.close();
    event.waitUntil(open(worker, event.notification.data.path));
  });
}

async function open(worker, path) {
  const pages = await worker.clients.matchAll({ type: "window", includeUncontrolled: true });
  const here = pages.find((page) => new URL(page.url).pathname === path);
  return here ? here.focus() : worker.clients.openWindow(path);
}
