// Hours in a position on one day: overlaps count once, the day is the phone's own.

export function hoursOn(blocks, day) {
  const start = new Date(day.getFullYear(), day.getMonth(), day.getDate()).getTime();
  const end = new Date(day.getFullYear(), day.getMonth(), day.getDate() + 1).getTime();
  const spans = blocks
    .map(([from, to]) => [Math.max(from, start), Math.min(to, end)])
    .filter(([from, to]) => to > from)
    .sort((a, b) => a[0] - b[0]);
  let total = 0;
  let reached = start;
  for (const [from, to] of spans) {
    total += Math.max(0, to - Math.max(from, reached));
    reached = Math.max(reached, to);
  }
  return total / 3600000;
}

export function isoDay(date) {
  const two = (n) => String(n).padStart(2, "0");
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

// The plan that an eye has for this day, or undefined.
export function planOn({ posture }, day) {
  return posture?.dates.includes(isoDay(day)) ? posture : undefined;
}
