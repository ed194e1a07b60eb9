"use strict";
// What a form does besides, where scripts run: Enter in a line goes on to the next
// field, counts have buttons, a file is read into its field, and what is folded opens where a
// link leads into it.
for (const form of document.forms) {
  form.addEventListener("keydown", e => {
    if (e.key !== "Enter" || e.target.tagName !== "INPUT" || e.isComposing) return;
    const all = [...form.querySelectorAll("input:not([type=hidden]), select, textarea, button")].filter(f => f.offsetParent && f.tabIndex >= 0);
    e.preventDefault();
    all[all.indexOf(e.target) + 1]?.focus();
  });
}
for (const b of document.querySelectorAll("button[data-step]")) {
  const field = document.getElementById(b.dataset.for);
  b.hidden = false;
  b.addEventListener("click", () => {
    const now = field.value === "" ? Number(field.dataset.from) : Number(field.value.replace(",", "."));
    const next = Number.isFinite(now) ? now + Number(b.dataset.step) : 0;
    field.value = Math.max(0, Math.min(next, Number(field.dataset.most ?? Infinity)));
    field.dispatchEvent(new Event("change"));
  });
}
for (const file of document.querySelectorAll("input[data-into]")) {
  const field = document.getElementById(file.dataset.into);
  file.hidden = false;
  file.addEventListener("change", async () => { if (file.files.length) field.value = await file.files[0].text(); });
}
document.addEventListener("click", e => {
  const to = e.target.closest?.("a[href^='#']");
  const field = to && document.getElementById(decodeURIComponent(to.hash.slice(1)));
  if (!field) return;
  for (let d = field.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
  e.preventDefault();
  field.focus();
  field.scrollIntoView({block: "center"});
});
