// Drawing on the photograph of a fitting: rings, arrows, lines, by finger, pen or mouse. Without this the squares do it.
(() => {
  "use strict";
  const form = document.querySelector("[data-marking]");
  const picture = form.querySelector("[data-picture]");
  const [field, fresh, keep, tools] = ["drawn", "new", "keep", "tools"].map((name) => form.querySelector(`[data-${name}]`));
  const SVG = "http://www.w3.org/2000/svg";
  const NEAR = 12; // a finger that hardly moved has put a mark, not drawn one
  let marks = [];
  let tool = "ring";
  let going = null;

  try {
    marks = JSON.parse(field.value || "[]");
  } catch {
    marks = [];
  }

  // Thousandths of the width, as the drawing itself counts.
  function place(event) {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(picture.getScreenCTM().inverse());
    const { width, height } = picture.viewBox.baseVal;
    return [Math.round(Math.min(Math.max(at.x, 0), width)), Math.round(Math.min(Math.max(at.y, 0), height))];
  }

  const apart = ([a, b], [c, d]) => Math.hypot(a - c, b - d);

  function strokes({ kind, at }) {
    const [from, to] = [at[0], at[at.length - 1]];
    if (kind !== "arrow") return [at];
    const back = Math.atan2(from[1] - to[1], from[0] - to[0]);
    const ends = [0.49, -0.49].map((turn) => [to[0] + 34 * Math.cos(back + turn), to[1] + 34 * Math.sin(back + turn)]);
    return [at, [ends[0], to, ends[1]]];
  }

  function shape(mark, name) {
    const each = document.createElementNS(SVG, mark.kind === "ring" ? "circle" : "path");
    each.setAttribute("class", name);
    if (mark.kind === "ring") {
      const [[x, y], edge] = [mark.at[0], mark.at[mark.at.length - 1]];
      for (const [key, value] of [["cx", x], ["cy", y], ["r", Math.max(apart([x, y], edge), 8)]]) each.setAttribute(key, value);
    } else {
      each.setAttribute("d", strokes(mark).map((stroke) => `M${stroke.map((point) => point.join(" ")).join("L")}`).join(" "));
    }
    return each;
  }

  function draw() {
    const all = going ? [...marks, going] : marks;
    fresh.replaceChildren(...all.flatMap((mark) => [shape(mark, "mark-under"), shape(mark, "mark")]));
    field.value = marks.length ? JSON.stringify(marks) : "";
    keep.hidden = !marks.length;
  }

  function choose(name) {
    tool = name;
    picture.classList.toggle("marking", Boolean(tool));
    for (const each of tools.querySelectorAll("[data-tool]")) each.setAttribute("aria-pressed", String(each.dataset.tool === tool));
  }

  picture.addEventListener("pointerdown", (event) => {
    if (!tool || event.button !== 0) return;
    event.preventDefault();
    picture.setPointerCapture(event.pointerId);
    going = { kind: tool, at: [place(event)] };
  });

  picture.addEventListener("pointermove", (event) => {
    if (!going) return;
    const now = place(event);
    if (going.kind !== "line") going.at = [going.at[0], now];
    else if (going.at.length < 200 && apart(going.at[going.at.length - 1], now) >= 4) going.at.push(now);
    draw();
  });

  picture.addEventListener("pointerup", () => {
    if (!going) return;
    const [first, last] = [going.at[0], going.at[going.at.length - 1]];
    const still = going.at.length < 2 || (going.kind !== "line" && apart(first, last) < NEAR);
    if (still && going.kind === "ring") going.at = [first, [first[0] + 45, first[1]]];
    else if (still && going.kind === "arrow") going.at = [[Math.max(first[0] - 170, 0), first[1]], first];
    if (!still || going.kind !== "line") marks.push(going);
    going = null;
    draw();
  });
  picture.addEventListener("pointercancel", () => { going = null; draw(); });

  tools.addEventListener("click", (event) => { if ("tool" in event.target.dataset) choose(event.target.dataset.tool); });
  form.querySelector("[data-rub]").addEventListener("click", () => { marks.pop(); draw(); });

  tools.hidden = false;
  choose("ring");
  draw();
})();
