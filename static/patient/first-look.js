// A phone that was never set up is told so at once, before all the rest has come. Runs while the page is read.

try {
  const justSetUp = document.referrer.includes("/enrol");
  if (!justSetUp && !localStorage.getItem("set-up")) document.getElementById("not-enrolled").hidden = false;
} catch (error) {
  console.info("nothing is kept here:", error); // what that means is said once the rest has come
}
