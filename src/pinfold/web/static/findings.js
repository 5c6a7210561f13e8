// Fetches the working of a finding when it is opened; without this script the link in it leads there.
const findings = [...document.querySelectorAll("details.finding")];

async function fill(finding) {
  const link = finding.querySelector("a.more");
  if (!link || link.dataset.asked) return;
  link.dataset.asked = "yes";
  try {
    const answer = await fetch(`${link.pathname}?part`);
    if (!answer.ok) throw new Error(String(answer.status));
    const part = document.createElement("section");
    part.className = "fetched";
    part.innerHTML = await answer.text();
    part.querySelectorAll("[id]").forEach((each) => each.removeAttribute("id"));
    link.closest("p").replaceWith(part);
  } catch {
    delete link.dataset.asked;
  }
}

function openAsked() {
  const asked = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (asked instanceof HTMLDetailsElement) {
    asked.open = true;
    const around = asked.parentElement.closest("details.alike");
    if (around) around.open = true;
    asked.querySelector("summary").focus();
    asked.scrollIntoView({ block: "start" });
  }
}

for (const finding of findings) finding.addEventListener("toggle", () => finding.open && fill(finding));
window.addEventListener("hashchange", openAsked);
let opened = [];
const all = [...document.querySelectorAll("details.finding, details.alike")];
window.addEventListener("beforeprint", () => {
  opened = all.filter((finding) => !finding.open);
  for (const finding of opened) finding.open = true;
});
window.addEventListener("afterprint", () => {
  for (const finding of opened) finding.open = false;
});
// The browser itself goes to the place asked for when all is loaded, and takes the focus along: so after that.
if (document.readyState === "complete") openAsked();
else window.addEventListener("load", () => setTimeout(openAsked));
