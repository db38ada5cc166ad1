// Web push: subscribing a browser. What came is shown by its service worker.

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
