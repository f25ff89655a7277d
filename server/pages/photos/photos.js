// Arrow keys go from picture to picture, Escape back to the joint.

const WAY = { ArrowLeft: "before", ArrowRight: "after", Escape: "up" };

addEventListener("keydown", (stroke) => {
  if (stroke.altKey || stroke.ctrlKey || stroke.metaKey || stroke.shiftKey) return;
  const link = document.getElementById(WAY[stroke.key] ?? "");
  if (!link) return;
  stroke.preventDefault();
  link.click();
});
