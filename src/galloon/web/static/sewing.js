// Ticks of the sewing steps, kept in this browser.
const list = document.querySelector("[data-ticks]");
const key = `sewing ${list.dataset.ticks}`;
const boxes = [...list.querySelectorAll("input")];
const done = new Set(JSON.parse(localStorage.getItem(key) || "[]"));
const keep = () => localStorage.setItem(key, JSON.stringify([...done]));
for (const box of boxes) {
  box.checked = done.has(box.dataset.key);
  box.addEventListener("change", () => {
    if (box.checked) done.add(box.dataset.key);
    else done.delete(box.dataset.key);
    keep();
  });
}
document.querySelector("[data-clear]").addEventListener("click", () => {
  done.clear();
  for (const box of boxes) box.checked = false;
  keep();
});
