// The tablet's own way back leads one screen back, and out of the bench only from where it was opened.

/** Lets every screen gone to stand in the browser's history; a choice made on the same screen takes the place of the one before. */
export function leadBack(app, { history = globalThis.history, target = globalThis } = {}) {
  const go = app.go.bind(app);
  const keep = (how) => history[how]({ where: app.where }, "");
  keep("replaceState");
  app.go = (where) => {
    const before = app.where;
    go(where);
    keep(sameScreen(before, app.where) ? "replaceState" : "pushState");
  };
  target.addEventListener("popstate", ({ state }) => { if (state?.where) go(state.where); });
}

function sameScreen(before, now) {
  return ["screen", "frame", "joint", "more", "of", "what", "reading"].every((name) => before[name] === now[name]);
}
