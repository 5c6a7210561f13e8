// What the change does: complaints or findings, quantities, cost, beside the sketch.

import { element } from "./editor_panel.js";

const $ = (id) => document.getElementById(id);
const CLASS = { FAILS: "fails", "NOT SHOWN": "open", HOLDS: "holds" };
const SIGN = { FAILS: "✕", "NOT SHOWN": "?", HOLDS: "✓" };

export class Notes {
  constructor(book, { pickPlace, pickSide }) {
    Object.assign(this, { book, pickPlace, pickSide });
    this.base = null;
    this.last = null;
  }

  // The figures that changes are counted from: those of the file.
  opened(answer) { this.base = answer.reads ? answer : null; this.last = null; this.draw(answer, true); }
  kept() { this.base = this.now; this.draw(this.now, true); }

  draw(answer, newest) {
    if (answer.reads) this.now = answer;
    $("draft").classList.toggle("stale", !answer.reads);
    this.complaints(answer);
    if (!answer.findings) return;
    this.findings(answer.findings);
    this.quantities(answer.quantities);
    this.cost(answer.cost);
  }

  complaints({ reads, complaints }) {
    const root = $("complaints");
    root.hidden = reads;
    if (reads) return;
    const shown = JSON.stringify(complaints);
    if (root.dataset.shown === shown) return;
    root.dataset.shown = shown;
    const rows = complaints.slice(0, 12).map(({ place, message }) => element("li", {}, ...(place ? [element("button", { type: "button", class: "link", on: { click: () => this.pickPlace(place) } }, place), " "] : []), message));
    root.querySelector("ul").replaceChildren(...rows);
  }

  findings(found) {
    const head = $("verdict");
    head.className = `verdict ${CLASS[found.verdict]}`;
    head.textContent = found.verdict;
    $("counts").textContent = `${found.counts.FAILS} fail, ${found.counts["NOT SHOWN"]} not shown, ${found.counts.HOLDS} hold`;
    const shown = JSON.stringify(found.worst);
    const list = $("worst");
    if (list.dataset.shown === shown) return;
    list.dataset.shown = shown;
    list.replaceChildren(...found.worst.map((one) => this.finding(one)));
    $("more").textContent = found.more ? `and ${found.more} more that press less` : "";
  }

  finding(one) {
    const use = one.use === null ? "" : ` ${Math.round(one.use * 100)} %`;
    const what = `${one.check}, ${one.subject}`;
    const says = one.verdict === "HOLDS" ? "" : one.mend || one.because;
    const body = [element("b", {}, `${SIGN[one.verdict]} ${one.verdict}${use}`), " "];
    body.push(one.sides.length ? element("button", { type: "button", class: "link", on: { click: () => this.pickSide(one.sides[0]) } }, what) : what);
    if (says) body.push(element("span", { class: "says" }, says));
    return element("li", { class: CLASS[one.verdict] }, ...body);
  }

  quantities(lines) {
    const before = new Map(this.base?.quantities ?? []);
    const rows = lines.flatMap(([says, amount]) => {
      const old = before.get(says);
      const was = old !== undefined && old !== amount ? [element("s", {}, old), " "] : [];
      return [element("dt", {}, says), element("dd", {}, ...was, amount)];
    });
    $("amounts").replaceChildren(...rows);
  }

  cost(cost) {
    $("cost").textContent = cost.sentence;
    $("total").textContent = cost.text;
    $("difference").textContent = this.difference(cost);
  }

  difference(cost) {
    const by = cost.coins - (this.base?.cost.coins ?? cost.coins);
    if (!by) return "";
    const amount = (Math.abs(by) / 10 ** cost.digits).toFixed(cost.digits);
    return `${cost.currency} ${amount} ${by > 0 ? "more" : "less"} than the file`;
  }

  // One sentence for those who listen.
  told(answer) {
    if (!answer.reads) return `The plan does not read so: ${answer.complaints[0]?.message ?? ""}`;
    const { counts } = answer.findings;
    const by = this.difference(answer.cost);
    return `${counts.FAILS} fail, ${counts["NOT SHOWN"]} not shown, ${counts.HOLDS} hold. Cost ${answer.cost.text}${by ? `, ${by}` : ""}.`;
  }
}
