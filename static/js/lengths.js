// Lengths as the workshop writes them, by the same rules as workshop/length.py (a test holds the two together).
// A length is a whole number of ten-thousandths of a millimetre, so that sixteenths of an inch are exact.
chalk.lengths = (() => {
  "use strict";
  const PER = { in: 254000, cm: 100000, mm: 10000, yd: 9144000, m: 10000000 };
  const VULGAR = { "¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅐": "1/7", "⅑": "1/9", "⅒": "1/10" };
  const AS_CHARACTER = { "1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞" };
  const SUPER = "⁰¹²³⁴⁵⁶⁷⁸⁹";
  const SUB = "₀₁₂₃₄₅₆₇₈₉";
  const FORM = /^([-−+])? ?(?:([0-9]{0,7}[.,][0-9]{1,8})|([0-9]{1,7})(?: ([0-9]{1,2})\/([0-9]{1,2}))?|([0-9]{1,2})\/([0-9]{1,2})) ?(in|cm|mm|yd|m|"|″|”)?$/i;
  const LONGEST = 40000000; // thirteen feet

  const plain = (text) => text
    .replace(/([⁰¹²³⁴⁵⁶⁷⁸⁹]{1,2})[⁄/∕]([₀₁₂₃₄₅₆₇₈₉]{1,2})/g, (_, a, b) => ` ${[...a].map((c) => SUPER.indexOf(c)).join("")}/${[...b].map((c) => SUB.indexOf(c)).join("")}`)
    .replace(/\s*[⁄∕]\s*/g, "/")
    .replace(/[¼½¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚⅐⅑⅒]/g, (c) => ` ${VULGAR[c]} `)
    .replace(/[ \t\u00a0\u2009\u202f]+/g, " ").replace(/^ | $/g, "");

  const advice = (unit) => (unit === "in" ? "Write inches as 28 1/2 or 28.5, centimetres as 72.4 cm." : "Write centimetres as 72.4, inches as 28 1/2 in.");

  function adviceFor(text, unit) {
    const hyphened = text.match(/([0-9]{1,3})-([0-9]{1,2})\/([0-9]{1,2})/);
    if (hyphened) return `Write it with a space: ${hyphened[1]} ${hyphened[2]}/${hyphened[3]}.`;
    return /y|met/i.test(text) ? "Write yards as 1 1/2 yd, metres as 1.4 m." : advice(unit);
  }

  const quoted = (text) => {
    const shown = text.replace(/[^\S ]|\p{C}/gu, "�");
    return shown.length > 40 ? `${shown.slice(0, 39)}…` : shown;
  };

  // { at } or { refused: sentence }
  function read(written, unit) {
    const typed = written.trim();
    const cannot = (what) => ({ refused: `I can't read “${quoted(typed)}”. ${what}` });
    if (typed.length > 60) return cannot(advice(unit));
    const text = plain(typed);
    if (!text) return { refused: `Nothing is written here. ${advice(unit)}` };
    const form = text.match(FORM);
    if (!form) return cannot(adviceFor(text, unit));
    let named = (form[8] || unit).toLowerCase();
    if (`"″”`.includes(named)) named = "in";
    let amount = form[2] ? Number(form[2].replace(",", ".")) : Number(form[3] || 0);
    const num = form[4] || form[6];
    if (num !== undefined) {
      const [n, d] = [Number(num), Number(form[5] || form[7])];
      const allowed = named === "yd" ? [2, 3, 4, 8, 16] : [2, 4, 8, 16];
      const lead = form[3] ? `${form[3]} ` : "";
      if (!allowed.includes(d)) {
        const fitting = allowed.filter((each) => each > n && n > 0);
        const nearest = (fitting.length ? fitting : [8]).reduce((a, b) => (Math.abs(b - d) < Math.abs(a - d) ? b : a));
        return cannot(`Use halves, quarters, eighths or sixteenths: ${lead}${n && n < nearest ? n : 5}/${nearest}.`);
      }
      if (n <= 0 || n >= d) return cannot(`Write a whole number and a part smaller than one: ${lead}${Math.min(n, d - 1) || 1}/${d}.`);
      amount += n / d;
    }
    if (form[1] && "-−".includes(form[1])) {
      return amount > 0 ? { refused: `“${quoted(typed)}” is less than nothing. Write it without the minus.` } : { refused: `“${quoted(typed)}” is no length. Write what the tape says.` };
    }
    const length = Math.round(amount * PER[named]);
    if (length > 1e10) return { refused: `“${quoted(typed)}” is over a kilometre. Write it again.` };
    if (length <= 0) return { refused: `“${quoted(typed)}” is no length. Write what the tape says.` };
    if (length > LONGEST) return { refused: `“${quoted(typed)}” is longer than anybody. Write it again.` };
    return { at: length };
  }

  function print(length, unit) {
    const size = Math.abs(length);
    let text;
    if (unit === "in") {
      let part = Math.floor((size * 16) / PER.in + 0.5);
      const whole = Math.floor(part / 16);
      part %= 16;
      let [n, d] = [part, 16];
      while (n && n % 2 === 0) [n, d] = [n / 2, d / 2];
      const fraction = n ? AS_CHARACTER[`${n}/${d}`] || `${[...String(n)].map((c) => SUPER[c]).join("")}⁄${[...String(d)].map((c) => SUB[c]).join("")}` : "";
      text = fraction ? `${whole || ""}${fraction}` : String(whole);
    } else {
      text = String(Math.floor(size / 10000 + 0.5) / 10);
    }
    return length < 0 && text !== "0" ? `−${text}` : text;
  }

  return { read, print, PER };
})();
