// A lace laid straight, its lines and marks on it; each handle is dragged or moved by arrow keys. Places are mm.
import { svg } from "/static/svg.js";

const WAYS = { x: { ArrowLeft: -1, ArrowRight: 1, ArrowDown: -1, ArrowUp: 1 }, y: { ArrowUp: -1, ArrowDown: 1, ArrowLeft: -1, ArrowRight: 1 } };
const ROOM = 8;
const within = (value, low, high) => Math.min(high, Math.max(low, value));

// `told` hears of each figure that a move changes. Gives the element, `place` (once it is on the page) and `box`, the
// repeat's left, top, right and bottom.
export function level(view, lace, words, told) {
  const { wide, tall, first } = view;
  const scalloped = Boolean(lace.scallop_pitch);
  const now = {
    top: view.top, low: view.low, start: view.start, depth: first === "low" ? view.low_depth : view.top_depth,
    pitch: lace.scallop_pitch?.value || 0, repeat: lace.repeat?.value || lace.scallop_pitch?.value || 0,
  };
  const shown = Math.max(1, Math.floor((wide - ROOM - now.start) / (now.pitch || wide) - 0.5));
  const count = () => Math.max(1, Math.round(now.repeat / now.pitch));
  const edge = () => (first === "low" ? now.low : now.top);
  const valley = () => (first === "low" ? now.low - now.depth : now.top + now.depth);
  const sheet = svg("svg", { viewBox: `0 0 ${wide} ${tall}`, class: "level", role: "group", "aria-label": words["read.level"] });
  const lines = svg("g", { "aria-hidden": "true" });
  const handles = svg("g", {});
  sheet.append(svg("image", { href: view.src, width: wide, height: tall, preserveAspectRatio: "none" }), lines, handles);

  // What each handle moves: its axis, its place, the limits of the figure, and how far a step of its mark moves that.
  const middle = () => now.start + Math.min(now.repeat || wide / 2, wide - now.start) / 2;
  const KINDS = {
    top: { axis: "y", at: () => [middle(), now.top], low: () => 0, high: () => now.low - 3 },
    low: { axis: "y", at: () => [middle(), now.low], low: () => now.top + 3, high: () => tall },
    depth: { axis: "y", at: () => [now.start, valley()], low: () => 0.2, high: () => (now.low - now.top) / 2 - 1, sign: first === "low" ? -1 : 1 },
    start: { axis: "x", at: () => [now.start, tall * 0.4], low: () => 0, high: () => wide - 5 },
    pitch: { axis: "x", at: () => [now.start + (shown + 0.5) * now.pitch, edge()], low: () => 2, high: () => wide, share: 1 / (shown + 0.5) },
    repeat: { axis: "x", at: () => [now.start + now.repeat, tall * 0.6], low: () => now.pitch || 2, high: () => Math.max(wide - now.start, now.pitch) },
  };
  const needs = { depth: scalloped, pitch: scalloped, start: now.repeat > 0, repeat: now.repeat > 0 };
  const keys = Object.keys(KINDS).filter((key) => needs[key] ?? true);

  function move(key, value) {
    const kind = KINDS[key];
    const turns = count();
    now[key] = within(value, kind.low(), kind.high());
    if (key === "pitch") now.repeat = turns * now.pitch;
    if (key === "repeat" && scalloped) now.repeat = count() * now.pitch;
    if (key === "top" || key === "low") told("width", now.low - now.top);
    if (key === "depth") told("scallop_depth", now.depth);
    if (key === "pitch") told("scallop_pitch", now.pitch);
    if (key === "pitch" || key === "repeat") told("repeat", now.repeat);
    draw();
  }

  function scallops(base, outward, depth) {
    const points = [];
    for (let x = 0; x <= wide; x += Math.max(0.5, now.pitch / 24)) {
      points.push(`${x.toFixed(2)} ${(base - outward * depth * (1 - Math.abs(Math.sin((Math.PI * (x - now.start)) / now.pitch)))).toFixed(2)}`);
    }
    return `M${points.join("L")}`;
  }

  function draw() {
    const paths = [["peaks", `M0 ${now.top}H${wide}M0 ${now.low}H${wide}`]];
    if (scalloped) {
      paths.push(["scallops", scallops(edge(), first === "low" ? 1 : -1, now.depth)], ["valleys", `M0 ${valley()}H${wide}`]);
      const marks = [];
      for (let x = now.start + now.pitch / 2; x < wide; x += now.pitch) marks.push(`M${x} ${edge() - 3}v6`);
      paths.push(["marks", marks.join("")]);
    }
    if (now.repeat) paths.push(["repeat", `M${now.start} ${now.top}H${now.start + now.repeat}V${now.low}H${now.start}Z`]);
    lines.replaceChildren(...paths.map(([name, d]) => svg("path", { class: name, d })));
    const zoom = 1 / (sheet.getScreenCTM()?.a || 1);
    for (const key of keys) {
      const [x, y] = KINDS[key].at();
      const place = handles.querySelector(`[data-key="${key}"]`) || added(key);
      place.setAttribute("transform", `translate(${within(x, 0, wide)} ${within(y, 0, tall)}) scale(${zoom})`);
      place.setAttribute("aria-valuemin", KINDS[key].low().toFixed(1));
      place.setAttribute("aria-valuemax", KINDS[key].high().toFixed(1));
      place.setAttribute("aria-valuenow", now[key].toFixed(2));
      place.setAttribute("aria-valuetext", `${now[key].toFixed(2)} mm`);
    }
  }

  function added(key) {
    const { axis } = KINDS[key];
    const made = svg("g", { class: "handle", "data-key": key, tabindex: 0, role: "slider", "aria-label": words[`read.${key}`], "aria-orientation": axis === "x" ? "horizontal" : "vertical" });
    const title = svg("title", {});
    title.textContent = words[`read.${key}`];
    made.append(title, svg("circle", { class: "grip", r: 14 }), svg("path", { d: axis === "x" ? "M-12 0H12" : "M0 -12V12" }), svg("circle", { r: 5 }));
    made.addEventListener("pointerdown", (event) => grab(event, key, made));
    made.addEventListener("keydown", (event) => nudge(event, key));
    handles.append(made);
    return made;
  }

  const spot = (event) => new DOMPoint(event.clientX, event.clientY).matrixTransform(sheet.getScreenCTM().inverse());
  function grab(event, key, place) {
    const { axis, sign = 1, share = 1 } = KINDS[key];
    const [from, value] = [spot(event)[axis], now[key]];
    place.setPointerCapture(event.pointerId);
    place.focus({ preventScroll: true });
    const drag = (moved) => move(key, value + sign * share * (spot(moved)[axis] - from));
    const drop = () => {
      for (const one of ["pointermove", "pointerup", "pointercancel"]) place.removeEventListener(one, one === "pointermove" ? drag : drop);
    };
    place.addEventListener("pointermove", drag);
    place.addEventListener("pointerup", drop);
    place.addEventListener("pointercancel", drop);
    event.preventDefault();
  }

  function nudge(event, key) {
    const { axis, sign = 1, share = 1 } = KINDS[key];
    const way = WAYS[axis][event.key];
    if (!way) return;
    event.preventDefault();
    const step = key === "repeat" && scalloped ? now.pitch : (event.shiftKey ? 1 : 0.1) * share;
    move(key, now[key] + sign * way * step);
  }

  new ResizeObserver(draw).observe(sheet);
  return { element: sheet, place: draw, box: () => (now.repeat ? [now.start, now.top, now.start + now.repeat, now.low] : null) };
}
