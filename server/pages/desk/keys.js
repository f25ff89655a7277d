// The morning list by keyboard: j and k go down and up, x chooses, Enter decides on the chosen or on this one.

const rows = () => [...document.querySelectorAll(".matters tbody tr, .gone tbody tr")].filter((row) => row.offsetParent);

function go(step) {
  const all = rows();
  if (!all.length) return;
  const here = all.indexOf(document.activeElement.closest("tr"));
  const next = all[Math.min(Math.max(here + step, 0), all.length - 1)];
  next.focus();
  next.scrollIntoView({ block: "nearest" });
}

function choose(row) {
  const box = row?.querySelector("input[type=checkbox]");
  if (box) box.checked = !box.checked;
}

function decide(row) {
  const chosen = document.querySelector("input[name=key]:checked");
  if (chosen) chosen.form.requestSubmit();
  else row?.querySelector("a.button")?.click();
}

document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || event.target.matches("input:not([type=checkbox]), textarea, select")) return;
  const row = document.activeElement.closest("tr");
  if (event.key === "j") go(1);
  else if (event.key === "k") go(-1);
  else if (event.key === "x") choose(row);
  else if (event.key === "Enter" && document.activeElement === row) decide(row);
  else return;
  event.preventDefault();
});
