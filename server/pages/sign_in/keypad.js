// Puts a big keypad beside the PIN, for gloves; the field stays usable by keyboard.
const field = document.getElementById("secret");
if (field && matchMedia("(pointer: coarse)").matches) {
  const pad = document.createElement("div");
  pad.className = "keypad";
  for (const key of ["1", "2", "3", "4", "5", "6", "7", "8", "9", "Clear", "0", "Back"]) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = key;
    button.addEventListener("click", () => {
      if (key === "Clear") field.value = "";
      else if (key === "Back") field.value = field.value.slice(0, -1);
      else field.value += key;
    });
    pad.append(button);
  }
  field.after(pad);
}
