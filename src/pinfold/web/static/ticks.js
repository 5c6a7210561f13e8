// Keeps the ticks of a list in this browser, by what the row is, so that they last while amounts change.
const list = document.querySelector("[data-ticks]");
const place = `pinfold ticks: ${list.dataset.ticks}`;
const boxes = [...list.querySelectorAll("input[data-tick]")];
const clear = document.querySelector("[data-clear]");

function kept() {
  try {
    const found = JSON.parse(localStorage.getItem(place) ?? "[]");
    return new Set(Array.isArray(found) ? found : []);
  } catch {
    return new Set();
  }
}

function show(ticked) {
  for (const box of boxes) {
    box.checked = ticked.has(box.dataset.tick);
    box.closest("tr").classList.toggle("ticked", box.checked);
  }
  clear.hidden = ticked.size === 0;
}

function keep(ticked) {
  try {
    localStorage.setItem(place, JSON.stringify([...ticked]));
  } catch {
    // A browser that keeps nothing still shows the ticks until the page is left.
  }
  show(ticked);
}

list.addEventListener("change", (event) => {
  const box = event.target.closest("input[data-tick]");
  if (!box) return;
  const ticked = kept();
  if (box.checked) ticked.add(box.dataset.tick);
  else ticked.delete(box.dataset.tick);
  keep(ticked);
});
clear.addEventListener("click", () => {
  keep(new Set());
  boxes[0]?.focus();
});
window.addEventListener("storage", (event) => {
  if (event.key === place) show(kept());
});
show(kept());
