// What a form was answered with cannot be gone back to: its place in the history becomes the form's own address, which leads
// to the card once the discharge is confirmed.
document.getElementById("discharge").addEventListener("submit", () => history.replaceState(null, "", location.href));
