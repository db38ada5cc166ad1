// The operation note: breaks on the clock face by tap and key, the lens that a combined procedure leaves, drops written lately.
// Without this the boxes on the face work by themselves, and the server sets the lens.

const form = document.querySelector("form:has(.breaks)");
if (form) begin();

function begin() {
  for (const hint of form.querySelectorAll(".scripted")) hint.hidden = false;
  for (const face of form.querySelectorAll(".breaks")) startFace(face);
  const cataract = form.querySelector('input[name=steps][value="cataract"]');
  const lens = form.querySelector("select[name=lens]");
  cataract?.addEventListener("change", () => {
    if (cataract.checked && !lens.value) lens.value = "pseudophakic";
  });
  startDay();
  const drops = form.querySelector("textarea[name=drops]");
  for (const chip of form.querySelectorAll("[data-line]")) {
    chip.addEventListener("click", () => {
      drops.value = [drops.value.trimEnd(), chip.dataset.line].filter(Boolean).join("\n");
    });
  }
}

// Nothing is filled in for the day of surgery: today is one tap, or the key T in its field.
function startDay() {
  const chip = form.querySelector("[data-day]");
  const day = form.querySelector("input[name=operated_on]");
  if (!chip) return;
  const fill = () => { day.value = chip.dataset.day; };
  chip.addEventListener("click", () => {
    fill();
    form.querySelector("input[name=operated_time]").focus();
  });
  day.addEventListener("keydown", (event) => {
    if (event.key.toLowerCase() !== "t" || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    fill();
  });
}

const REACHES = ["macula", "arcade", "equator", "periphery"];

function startFace(face) {
  const svg = face.querySelector("svg");
  const boxes = /** @type {HTMLInputElement[]} */ ([...svg.querySelectorAll("input")]);
  const box = (hour, reach) => boxes.find(({ value }) => value === (reach === "macula" ? "12-macula" : `${hour}-${reach}`));
  let typed = "";
  let hour = 12; // the macula has none: where one comes from
  const say = () => {
    const chosen = [...face.querySelectorAll("input:checked")].map((input) => input.getAttribute("aria-label") ?? input.parentElement.textContent.trim());
    face.querySelector("output").textContent = chosen.join("; ") || "none";
  };
  const at = (input) => {
    for (const other of boxes) other.tabIndex = other === input ? 0 : -1;
  };
  at(boxes.find(({ checked }) => checked) ?? box(12, "equator"));
  face.addEventListener("change", say);
  for (const cell of svg.querySelectorAll(".cell")) {
    cell.addEventListener("click", () => cell.nextElementSibling.querySelector("input").click());
  }
  svg.addEventListener("focusin", ({ target }) => {
    typed = "";
    at(target);
  });
  svg.addEventListener("keydown", (event) => {
    const { key, target } = event;
    if (event.ctrlKey || event.altKey || event.metaKey || !(target instanceof HTMLInputElement)) return;
    const [said, reach] = target.value.split("-");
    if (reach !== "macula") hour = Number(said);
    const ring = REACHES.indexOf(reach);
    const go = (to) => {
      event.preventDefault();
      to?.focus();
    };
    if (/^\d$/.test(key)) typed = `${typed}${key}`.slice(-2);
    else if (key === "ArrowRight") go(box((hour % 12) + 1, reach));
    else if (key === "ArrowLeft") go(box(((hour + 10) % 12) + 1, reach));
    else if (key === "ArrowUp") go(box(hour, REACHES[Math.min(ring + 1, 3)]));
    else if (key === "ArrowDown") go(box(hour, REACHES[Math.max(ring - 1, 0)]));
    else {
      const letter = REACHES.find((name) => name[0] === key.toLowerCase());
      const meant = letter && box(Number(typed), letter);
      typed = "";
      if (!meant) return;
      event.preventDefault();
      meant.click();
      meant.focus();
    }
  });
}
