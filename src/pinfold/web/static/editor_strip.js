// All sides unfolded into one strip.

import { tape } from "./editor_measure.js";
import { keep, path, set, svg } from "./editor_sheet.js";

// Seen from outside.
export function unfold(strip, answer, system) {
  const em = parseFloat(getComputedStyle(document.documentElement).fontSize);
  const sides = answer?.shapes?.unfolded ?? [];
  if (!sides.length) return;
  const ordered = answer.shapes.outside_is_right ? sides : [...sides].reverse();
  const gap = 2.2;
  const says = (side) => `${side.side}, ${tape(side.length, system)}${answer.findings.by_side[side.side] === "FAILS" ? ", FAILS" : ""}`;
  const heights = sides.flatMap((side) => [...side.ground.map(([, z]) => z), ...side.posts.map(([, , , top]) => top), ...side.neighbors.map((one) => Math.min(one.top, one.low + 3.4)), ...side.steps.map((step) => step.foot)]);
  const heightsLow = Math.min(...heights), heightsHigh = Math.max(...heights);
  const scale = Math.max(16, Math.min(60, 170 / (heightsHigh - heightsLow)));
  const roomOf = (side) => Math.max(side.length, says(side).length * em * 0.46 / scale) + gap; // a short side is as long as its name
  const whole = ordered.reduce((sum, side) => sum + roomOf(side), 0);
  const low = heightsLow - 1.3 * em / scale, high = heightsHigh + 1.6 * em / scale;
  set(strip, { viewBox: `0 0 ${(whole * scale).toFixed(0)} ${((high - low) * scale).toFixed(0)}`, width: (whole * scale).toFixed(0), height: ((high - low) * scale).toFixed(0) });
  let start = gap / 2;
  const list = ordered.map((side) => { const one = { ...side, start }; start += roomOf(side); return one; });
  keep(strip, list, (side) => side.side, () => svg("g", {}, svg("path", { class: "u-neighbor" }), svg("path", { class: "u-fence" }), svg("path", { class: "u-wall" }), svg("path", { class: "u-foot" }), svg("path", { class: "u-post" }), svg("path", { class: "u-gate" }), svg("path", { class: "u-bank" }), svg("path", { class: "u-ground" }), svg("text", { class: "u-name" }), svg("text", { class: "u-left" }), svg("text", { class: "u-right" })), (group, side) => {
    const to = ([x, z]) => [((x + side.start) * scale).toFixed(1), ((high - z) * scale).toFixed(1)];
    const ring = (points) => path(points.map(to), true);
    const rect = (from, end, foot, top) => ring([[from, foot], [end, foot], [end, top], [from, top]]);
    const [neighbor, fence, wall, foot, post, gate, bank, ground, name, left, right] = group.children;
    const verdict = answer.findings.by_side[side.side];
    set(group, { class: verdict === "FAILS" ? "fails" : verdict === "NOT SHOWN" ? "open" : "holds" });
    set(neighbor, { d: side.neighbors.map((one) => rect(one.from, one.to, one.low, one.top)).join("") });
    set(fence, { d: side.fence.map(ring).join("") });
    set(wall, { d: side.steps.map((step) => ring(step.shown)).join("") });
    set(foot, { d: side.steps.map((step) => { const xs = step.shown.map(([x]) => x); return path([[Math.min(...xs), step.foot], [Math.max(...xs), step.foot]].map(to)); }).join("") });
    set(post, { d: side.posts.map(([x, under, base, top]) => path([[x, base], [x, top]].map(to))).join("") });
    set(gate, { d: side.gates.map((one) => rect(one.from, one.to, one.low, one.top) + path([[one.from, one.low], [one.to, one.top]].map(to))).join("") });
    set(bank, { d: side.banks.map(ring).join("") });
    set(ground, { d: path([...side.ground].sort((a, b) => a[0] - b[0]).map(to)) });
    const texts = [[name, side.length / 2, high - em / scale, says(side)], [left, 0, low + 0.25 * em / scale, side.corners[0]], [right, side.length, low + 0.25 * em / scale, side.corners[1]]];
    for (const [element, x, z, text] of texts) {
      const [a, b] = to([x, z]);
      set(element, { x: a, y: b, "text-anchor": "middle" });
      if (element.textContent !== text) element.textContent = text;
    }
  });
}
