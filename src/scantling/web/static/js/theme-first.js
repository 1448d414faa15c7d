// Before anything is drawn: the theme chosen last, or the one this computer prefers. Not a module, so that it runs first.
(() => {
  let chosen = null;
  try {
    chosen = localStorage.getItem("theme");
  } catch {
    // storage may be switched off: then the preference of the computer holds
  }
  const dark = chosen ? chosen === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
  document.documentElement.dataset["theme"] = dark ? "dark" : "light";
})();
