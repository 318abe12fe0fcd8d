// What is odd about a reading: by itself, since last time, and against the other measures. The same rules and words as
// clients/checks.py and clients/agreement.py (a test holds them together); the rules themselves come with the page.
chalk.odd = (() => {
  "use strict";
  const { read, print, PER } = chalk.lengths;
  const CHOSEN = ["skirt_length", "dress_length"];
  const ONCE_MORE = "Read the tape once more? If it is right, keep it.";
  const NEAR = 0.04;

  // measure: { key, kind, low, high, last, when }. Answers null or { text, offer }.
  function remark(measure, written, unit) {
    const { at } = read(written, unit);
    if (!at) return null;
    const last = CHOSEN.includes(measure.key) ? 0 : measure.last;
    const plausible = (length) => measure.low <= length && length <= measure.high;
    const jumped = last && Math.abs(at - last) > (measure.kind === "girth" ? 0.04 : 0.08) * last;
    if (plausible(at) && !jumped) return null;
    const usual = `the usual ${print(measure.low, unit)} to ${print(measure.high, unit)}`;
    const far = at < measure.low / 2 || at > measure.high * 2;
    const fact = far
      ? `${print(at, unit)} is far outside ${usual}: no draft is made with it.`
      : jumped
      ? `${print(Math.abs(at - last), unit)} ${at > last ? "more" : "less"} than on ${measure.when} (${print(last, unit)}).`
      : `${print(at, unit)} is outside ${usual}.`;
    const likely = (length) => (!last || Math.abs(length - last) <= NEAR * last) && plausible(length);
    const slip = slipped(measure, written, at, last, unit, likely);
    return slip ? { text: `${fact} ${slip.text}`, offer: slip.offer } : { text: `${fact} ${ONCE_MORE}`, offer: "" };
  }

  function slipped(measure, written, at, last, unit, likely) {
    const other = unit === "in" ? "cm" : "in";
    const otherwise = (at * PER[other]) / PER[unit];
    if (!/[A-Za-z"″”]/.test(written) && likely(otherwise)) {
      const offer = `${written.trim()} ${other}`;
      return { text: `Was it ${offer}, which is ${print(otherwise, unit)}?`, offer };
    }
    const ten = 10 * PER[unit];
    for (const length of [at - ten, at + ten]) {
      if (likely(length)) return { text: `A tape slips by ten easily: was it ${print(length, unit)}?`, offer: print(length, unit) };
    }
    if (last && measure.kind !== "girth" && unit === "in") {
      for (const length of [at - PER.in, at + PER.in]) {
        if (length === last) return { text: `A tape slips by a whole inch easily: was it ${print(length, unit)}?`, offer: print(length, unit) };
      }
    }
    return null;
  }

  // lengths: { key: at }. Answers [{ text, keys }].
  function against(rules, lengths, unit) {
    const found = [];
    for (const { keys, cases } of rules) {
      if (!keys.every((key) => lengths[key])) continue;
      const own = keys.map((key) => lengths[key]);
      const sum = ([constant, ...shares]) => shares.reduce((total, share, n) => total + share * own[n], constant * 10000);
      for (const each of cases) {
        const excess = Math.round(sum(each.excess) * 100) / 100;
        if (excess < 0 || (excess === 0 && !each.touching)) continue;
        const said = [...own, ...(each.also || []).map(sum)].map((length) => print(length, unit));
        found.push({ keys, text: each.text.replace(/\{(\d)\}/g, (_, n) => said[n]) });
        break;
      }
    }
    return found;
  }

  return { remark, against };
})();
