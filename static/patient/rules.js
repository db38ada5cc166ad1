// Which signed rules the answers of one check meet. The rules come from the clinic; nothing clinical is worked out here.

const ORDER = ["now", "today", "this-week"];

// `answers` is what the form said: { pain: 7, vision: "worse", discharge: true, … }.
export function said(answers) {
  return new Set(Object.entries(answers).flatMap(([name, value]) => {
    if (value === true) return [name];
    return typeof value === "string" ? [`${name}=${value}`] : [];
  }));
}

export function matching(rules, answers, at = new Date()) {
  const told = said(answers);
  const pain = answers.pain ?? 0;
  const holds = (rule) => {
    const number = rule.answers.filter((answer) => told.has(answer)).length + (rule.pain !== null && pain >= rule.pain ? 1 : 0);
    return number >= rule.count && rule.also.every((answer) => told.has(answer));
  };
  const inTime = (rule) => at >= new Date(rule.valid_from) && at <= new Date(rule.valid_until);
  return rules.filter((rule) => inTime(rule) && holds(rule)).sort((a, b) => ORDER.indexOf(a.how_soon) - ORDER.indexOf(b.how_soon));
}
