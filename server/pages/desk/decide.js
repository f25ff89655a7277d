// Deciding by keyboard: a digit chooses and goes on to the reason, Ctrl and Enter go from there to the signature.

const choices = [...document.querySelectorAll("input[name=choice]")];
const reason = document.querySelector("#reason");
const secret = document.querySelector("#secret");

function choose(radio) {
  radio.checked = true;
  reason.focus();
}

document.addEventListener("keydown", (event) => {
  if (event.target === reason && event.key === "Enter" && (event.ctrlKey || event.metaKey)) secret.focus();
  else if (event.ctrlKey || event.metaKey || event.altKey || event.target.matches("input:not([type=radio]), textarea, select")) return;
  else if (choices[Number(event.key) - 1]) choose(choices[Number(event.key) - 1]);
  else return;
  event.preventDefault();
});

// A choice made by hand goes on to the reason as well; arrow keys within the choices do not.
for (const radio of choices) radio.closest("label").addEventListener("click", (event) => {
  if (event.detail > 0 && radio.checked) reason.focus();
});
