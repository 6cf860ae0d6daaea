// Words that a tab of the browser keeps while it is open, also over loading the page anew; no other tab and no other machine sees them.
export function read(key) {
  return sessionStorage.getItem(key) ?? '';
}

export function keep(key, words) {
  sessionStorage.setItem(key, words);
}
