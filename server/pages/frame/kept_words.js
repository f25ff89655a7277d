// What was typed outlives a sign-in that ran out: it is kept in this tab until the same person is back on the same page.

const NAME = "strawline-kept-words";
const { person } = document.body.dataset;
const here = location.pathname + location.search;
const LEFT_OUT = ["password", "hidden", "file", "submit", "button"];

const fieldsOf = (form) => [...form.elements].filter((each) => each.name && !LEFT_OUT.includes(each.type));
const ticked = (field) => ["checkbox", "radio"].includes(field.type);

function keep(form) {
  const words = fieldsOf(form).map((field) => (ticked(field) ? field.checked : field.value));
  sessionStorage.setItem(NAME, JSON.stringify({ person, here, form: [...document.forms].indexOf(form), words }));
}

/** Whatever was kept is taken away by the next page somebody sees signed in, whoever that is. */
function taken() {
  const kept = JSON.parse(sessionStorage.getItem(NAME) ?? "null");
  sessionStorage.removeItem(NAME);
  const fromTheDoor = document.referrer && new URL(document.referrer).pathname === "/sign-in";
  return kept && fromTheDoor && kept.person === person && kept.here === here ? kept : null;
}

function putBack({ form: at, words }) {
  const form = document.forms[at];
  const fields = form ? fieldsOf(form) : [];
  if (fields.length !== words.length) return;
  fields.forEach((field, which) => {
    if (ticked(field)) field.checked = words[which];
    else field.value = words[which];
  });
  const told = Object.assign(document.createElement("p"), { className: "panel" });
  told.setAttribute("role", "status");
  told.textContent = "Nothing was sent, as your sign-in had run out. What you had typed stands here again, but for PINs and files.";
  // Not by the form's own method: a form with a field called “before” has that field instead.
  const place = document.createRange();
  place.setStartBefore(form);
  place.insertNode(told);
}

if (person) {
  const kept = taken();
  if (kept) putBack(kept);
  addEventListener("submit", ({ target }) => { if (target.getAttribute("method") === "post") keep(target); });
}
