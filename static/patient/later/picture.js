// Draws one row of values over days: bars, dots or marks, in SVG. Days run along, values up; colours and lines are the page's.

const NAMESPACE = "http://www.w3.org/2000/svg";
const [WIDTH, HEIGHT, EDGE] = [320, 72, 4];

// `values` has a number, true or null for each day; `most` is what fills the height, `goal` a line across.
export function drawing(shape, values, most, goal = null) {
  const made = element("svg", { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: "img", class: "lane" });
  const step = (WIDTH - 2 * EDGE) / Math.max(1, values.length);
  const middle = (n) => EDGE + (n + 0.5) * step;
  const up = (value) => HEIGHT - EDGE - (Math.min(value, most) / most) * (HEIGHT - 2 * EDGE);
  made.append(element("path", { class: "ground", d: `M0 ${HEIGHT - EDGE}H${WIDTH}` }));
  if (goal !== null) made.append(element("path", { class: "goal", d: `M0 ${round(up(goal))}H${WIDTH}` }));
  const points = values.map((value, n) => [n, value]).filter(([, value]) => value !== null && value !== false);
  if (shape === "line" && points.length > 1) {
    made.append(element("path", { class: "line", d: `M${points.map(([n, value]) => `${round(middle(n))} ${round(up(value))}`).join("L")}` }));
  }
  for (const [n, value] of points) {
    if (shape === "bars") {
      const wide = Math.max(2, step - 2);
      made.append(element("rect", { class: "bar", x: round(middle(n) - wide / 2), y: round(up(value)), width: round(wide), height: round(HEIGHT - EDGE - up(value)) }));
    } else {
      made.append(element("circle", { class: "dot", cx: round(middle(n)), cy: round(value === true ? HEIGHT / 2 : up(value)), r: 4 }));
    }
  }
  return made;
}

function element(name, attributes) {
  const made = document.createElementNS(NAMESPACE, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  return made;
}

const round = (value) => Math.round(value * 10) / 10;
