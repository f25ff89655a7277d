// What was typed outlives an answer that took none of it: it is kept in this tab until it stands in its form again.

const NAME = "strawline-kept-words";
const { person } = document.body.dataset;
const here = () => location.pathname + location.search;
const LEFT_OUT = ["password", "hidden", "file", "submit", "button"];
const SAYS = {
  door: "Nothing was sent, as your sign-in had run out.",
  trouble: "What you sent was not taken.",
  silence: "No answer came to what you sent; sent again in the same words it is recorded once.",
};

const fieldsOf = (form) => [...form.elements].filter((each) => each.name && !LEFT_OUT.includes(each.type));
const ticked = (field) => ["checkbox", "radio"].includes(field.type);
const actionOf = (form) => form.getAttribute("action") ?? "";
const labelOf = (field) => field.labels?.[0]?.textContent.trim() || field.name;
const wordOf = (field) => ({ name: field.name, value: field.value, ticks: ticked(field), on: field.checked ?? false, label: labelOf(field) });

function store(kept) {
  try {
    sessionStorage.setItem(NAME, JSON.stringify(kept));
  } catch {
    // More than a tab may keep is kept by nobody.
    sessionStorage.removeItem(NAME);
  }
}

function keep(form) {
  const to = new URL(actionOf(form), location.href);
  store({ person, here: here(), to: to.pathname + to.search, action: actionOf(form), at: [...document.forms].indexOf(form), words: fieldsOf(form).map(wordOf) });
}

function formOf({ action, at }) {
  const same = [...document.forms].filter((form) => actionOf(form) === action && form.getAttribute("method") === "post");
  return same.includes(document.forms[at]) ? document.forms[at] : same[0];
}

/** Sets a field to what was typed; false where it has no such choice. */
function set(field, word) {
  if (word.ticks) field.checked = word.on;
  else field.value = word.value;
  return word.ticks || field.value === word.value;
}

/** Puts each word back into its field, and gives those that have none any more. */
function putBack(form, words) {
  const left = fieldsOf(form);
  return words.filter((word) => {
    const at = left.findIndex((field) => field.name === word.name && ticked(field) === word.ticks && (!word.ticks || field.value === word.value));
    return at < 0 || !set(left.splice(at, 1)[0], word);
  });
}

/** Words that have no field: what was written stands there as text, to be taken from. */
function listed(words) {
  const list = document.createElement("dl");
  for (const { label, value } of words.filter((word) => !word.ticks && word.value.trim())) {
    const said = Object.assign(document.createElement("dd"), { textContent: value });
    said.style.whiteSpace = "pre-wrap";
    list.append(Object.assign(document.createElement("dt"), { textContent: label }), said);
  }
  return list.childElementCount ? [list] : [];
}

function tell(sentence, words, before) {
  const told = Object.assign(document.createElement("div"), { className: "panel" });
  told.setAttribute("role", "status");
  told.append(Object.assign(document.createElement("p"), { textContent: sentence }), ...listed(words));
  // Not by the form's own method: a form with a field called “before” has that field instead.
  const place = document.createRange();
  if (before) place.setStartBefore(before);
  else place.selectNodeContents(document.getElementById("work"));
  if (!before) place.collapse(false);
  place.insertNode(told);
}

function cameTo() {
  const fromTheDoor = document.referrer && new URL(document.referrer).pathname === "/sign-in";
  const [way] = performance.getEntriesByType("navigation");
  return fromTheDoor ? "door" : way?.type === "back_forward" ? "silence" : null;
}

/** The words belong to this page: they stand in its form again, and what has no place there stands beside it. */
function stand(kept, why) {
  const form = formOf(kept);
  const homeless = form ? putBack(form, kept.words) : kept.words;
  tell(`${SAYS[why]} What you had typed stands here again, but for PINs and files.`, homeless, form);
}

/** An answer that took nothing: of a form filled in again the address is put right, so that it can be loaded anew. */
function wait(kept) {
  store({ ...kept, why: "trouble" });
  if (document.body.dataset.answer === "trouble") tell("What you had typed, but for PINs and files; it stands in the form again when you go back to it.", kept.words);
  else if (kept.to === here()) history.replaceState(null, "", kept.here);
}

/** The door leads back to a long address without what was asked of it. */
function goTheWholeWay(kept, why) {
  if (why !== "door" || kept.here === here() || kept.here.split("?")[0] !== location.pathname) return false;
  store({ ...kept, why });
  location.replace(kept.here);
  return true;
}

function arrive() {
  const kept = JSON.parse(sessionStorage.getItem(NAME) ?? "null");
  // Whoever else is signed in now sees nothing of it, nor does anybody after them.
  sessionStorage.removeItem(NAME);
  if (!kept || kept.person !== person) return;
  const came = cameTo();
  if (goTheWholeWay(kept, came)) return;
  if (document.body.dataset.answer) wait(kept);
  else if (kept.here === here() && (came || kept.why)) stand(kept, came === "silence" ? kept.why ?? came : came ?? kept.why);
}

if (person) {
  arrive();
  addEventListener("submit", ({ target }) => { if (target.getAttribute("method") === "post") keep(target); });
}
