// The morning list by keyboard: j and k go down and up, x chooses, Enter decides, a digit decides with its choice filled in.

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

// What is ticked goes first; without a tick it is the row that has the focus.
function decide(row, choice) {
  const form = document.querySelector("input[name=key]:checked")?.form;
  const link = row?.querySelector("td:last-child a.button");
  if (!form && !link) return;
  const to = form ? new URL(form.action) : new URL(link.href);
  if (form) to.search = new URLSearchParams(new FormData(form));
  if (choice) to.searchParams.set("choice", choice);
  location.assign(to);
}

document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || event.target.matches("input:not([type=checkbox]), textarea, select")) return;
  const row = document.activeElement.closest("tr");
  const digit = [...document.querySelectorAll("kbd[data-choice]")].find((each) => each.textContent === event.key);
  if (event.key === "j") go(1);
  else if (event.key === "k") go(-1);
  else if (event.key === "x") choose(row);
  else if (event.key === "Enter" && document.activeElement === row) decide(row);
  else if (digit) decide(row, digit.dataset.choice);
  else return;
  event.preventDefault();
});
