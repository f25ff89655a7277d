// Says on which line of the text the caret stands, and leads from a complaint to its line.
const text = document.getElementById("text");
const told = document.getElementById("text-line");

function lineOf(place) {
  return text.value.slice(0, place).split("\n").length;
}

function tell() {
  told.textContent = `Line ${lineOf(text.selectionStart)}.`;
}

function goTo(line) {
  const before = text.value.split("\n").slice(0, line - 1).join("\n").length;
  const start = line > 1 ? before + 1 : 0;
  const end = text.value.indexOf("\n", start);
  text.focus();
  text.setSelectionRange(start, end < 0 ? text.value.length : end);
  text.scrollTop = Math.max(0, (line - 6) * parseFloat(getComputedStyle(text).lineHeight));
  tell();
}

for (const item of document.querySelectorAll(".error-summary li")) {
  const found = /line (\d+)/.exec(item.textContent);
  if (!found || found[1] === "0") continue;
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = `Go to line ${found[1]}`;
  button.addEventListener("click", () => goTo(Number(found[1])));
  item.append(" ", button);
}
// What is written here is kept nowhere else before its release: leaving asks first, sending does not.
const begun = !document.querySelector(".error-summary, .next-revision fieldset");
let sending = false;
// Enter on the PIN is a release; by itself it would press the first button of the form and forget the PIN.
document.getElementById("secret")?.addEventListener("keydown", (pressed) => {
  if (pressed.key !== "Enter") return;
  pressed.preventDefault();
  text.form.requestSubmit(text.form.querySelector("[name=release]"));
});
text.form.addEventListener("submit", () => {
  sending = true;
  // Whoever stopped the browser is still here, and so is the text.
  setTimeout(() => { sending = false; }, 8000);
});
addEventListener("beforeunload", (leaving) => {
  if (!sending && (!begun || text.value !== text.defaultValue)) leaving.preventDefault();
});
for (const happening of ["keyup", "click", "input"]) text.addEventListener(happening, tell);
