// The text of a layout: tells the server what was typed once the typing rests, and finds a line and column.
const rest = 350;

export function open(area, page) {
  let timer = 0;
  let dirty = false;
  const stop = new AbortController();
  const tell = () => {
    clearTimeout(timer);
    timer = 0;
    return page.invokeMethodAsync('Typed', area.value);
  };
  area.addEventListener('input', () => {
    dirty = true;
    clearTimeout(timer);
    timer = setTimeout(tell, rest);
  }, { signal: stop.signal });
  area.addEventListener('keydown', event => {
    if ((event.ctrlKey || event.metaKey) && event.key === 's') {
      event.preventDefault();
      area.form.requestSubmit();
    }
  }, { signal: stop.signal });
  window.addEventListener('beforeunload', event => {
    if (dirty) event.preventDefault();
  }, { signal: stop.signal });
  return {
    put(text) {
      area.value = text;
      dirty = false;
    },
    read: () => area.value,
    // What was sent is saved as a text that may hold more; it is shown unless somebody has typed on.
    saved(sent, text) {
      dirty = area.value !== sent;
      if (!dirty && sent !== text) area.value = text;
      return !dirty;
    },
    goTo(line, column) {
      const lines = area.value.split('\n');
      const before = lines.slice(0, line - 1).reduce((sum, each) => sum + each.length + 1, 0);
      const at = before + column - 1;
      area.focus();
      area.setSelectionRange(at, Math.max(at, before + (lines[line - 1] ?? '').length));
      area.scrollTop = Math.max(0, (line - 4) * area.scrollHeight / Math.max(lines.length, 1));
    },
    close() {
      clearTimeout(timer);
      stop.abort();
    },
  };
}
