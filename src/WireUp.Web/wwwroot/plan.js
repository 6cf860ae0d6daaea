// The plan on the page: shows it, pans and zooms it, and tells which piece was touched and where. All of that happens here; only
// touches cross to the server, and only changed groups of shapes come back.
const svgName = 'http://www.w3.org/2000/svg';
const markRadius = 11;

export function open(host, page) {
  return new Board(host, page);
}

export class Board {
  constructor(host, page) {
    this.host = host;
    this.page = page;
    this.svg = null;
    this.limits = [0.01, 4];
    this.pointers = new Map();
    this.travel = 0;
    this.dragged = null;
    this.frame = 0;
    this.stop = new AbortController();
    const on = (kind, act, more) => host.addEventListener(kind, act.bind(this), { signal: this.stop.signal, ...more });
    on('pointerdown', this.down);
    on('pointermove', this.move);
    on('pointerup', this.up);
    on('pointercancel', this.cancel);
    on('wheel', this.wheel, { passive: false });
    on('keydown', this.key);
    this.size = new ResizeObserver(() => this.draw());
    this.size.observe(host);
  }

  // A plan is there together with what a finger hits, so that no touch of what can be seen is lost.
  show(text, touch) {
    const root = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
    const svg = document.importNode(root, true);
    const [, , width, height] = svg.getAttribute('viewBox').split(' ').map(Number);
    svg.removeAttribute('width');
    svg.removeAttribute('height');
    svg.setAttribute('aria-hidden', 'true');
    const sameSheet = this.sheet && this.sheet.width === width && this.sheet.height === height;
    this.host.replaceChildren(svg);
    this.svg = svg;
    this.sheet = { width, height };
    this.marksGroup = document.createElementNS(svgName, 'g');
    this.marksGroup.setAttribute('data-layer', 'marks');
    svg.append(this.marksGroup);
    this.replace('touch', touch);
    if (sameSheet) this.draw();
    else this.fit();
  }

  // A group of shapes takes the place of the one of that name, or lies on top where there is none.
  replace(layer, text) {
    if (!this.svg) return;
    const root = new DOMParser().parseFromString(`<svg xmlns="${svgName}">${text}</svg>`, 'image/svg+xml').documentElement;
    const fresh = document.importNode(root.firstElementChild, true);
    const old = [...this.svg.children].find(group => group.getAttribute('data-layer') === layer);
    if (old) old.replaceWith(fresh);
    else this.svg.insertBefore(fresh, this.marksGroup);
  }

  marks(list) {
    if (!this.svg) return;
    this.marksGroup.replaceChildren(...list.map(mark => {
      const group = document.createElementNS(svgName, 'g');
      group.setAttribute('class', `mark ${mark.kind}`);
      group.setAttribute('data-mark', mark.id);
      group.at = { x: mark.x, y: mark.y };
      const title = document.createElementNS(svgName, 'title');
      title.textContent = mark.title;
      const sign = document.createElementNS(svgName, mark.kind === 'train' ? 'rect' : 'circle');
      if (mark.kind === 'train') {
        for (const [name, value] of Object.entries({ x: -15, y: -9, width: 30, height: 18, rx: 3 })) sign.setAttribute(name, value);
      } else {
        sign.setAttribute('r', markRadius);
      }
      const words = document.createElementNS(svgName, 'text');
      words.setAttribute('y', '4');
      words.textContent = mark.text;
      group.append(title, sign, words);
      return group;
    }));
    this.draw();
  }

  fit() {
    const { clientWidth, clientHeight } = this.host;
    const scale = Math.max(this.sheet.width / Math.max(clientWidth, 1), this.sheet.height / Math.max(clientHeight, 1));
    this.view = {
      scale,
      x: (this.sheet.width - clientWidth * scale) / 2,
      y: (this.sheet.height - clientHeight * scale) / 2,
    };
    this.draw();
  }

  goTo(x, y) {
    if (!this.view) return;
    const { clientWidth, clientHeight } = this.host;
    this.view.scale = Math.min(this.view.scale, 0.35);
    this.view.x = x - clientWidth * this.view.scale / 2;
    this.view.y = y - clientHeight * this.view.scale / 2;
    this.draw();
  }

  zoom(factor) {
    this.zoomAt(factor, this.host.clientWidth / 2, this.host.clientHeight / 2);
  }

  zoomAt(factor, left, top) {
    if (!this.view) return;
    const scale = Math.min(Math.max(this.view.scale / factor, this.limits[0]), this.limits[1]);
    this.view.x += left * (this.view.scale - scale);
    this.view.y += top * (this.view.scale - scale);
    this.view.scale = scale;
    this.draw();
  }

  draw() {
    if (this.frame || !this.view) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      if (!this.svg) return;
      const { x, y, scale } = this.view;
      this.svg.setAttribute('viewBox', `${x} ${y} ${this.host.clientWidth * scale} ${this.host.clientHeight * scale}`);
      for (const group of this.marksGroup.children) {
        group.setAttribute('transform', `translate(${group.at.x} ${group.at.y}) scale(${scale})`);
      }
    });
  }

  place(event) {
    const box = this.host.getBoundingClientRect();
    const left = event.clientX - box.left;
    const top = event.clientY - box.top;
    return { left, top, x: this.view.x + left * this.view.scale, y: this.view.y + top * this.view.scale };
  }

  down(event) {
    if (!this.view) return;
    this.host.setPointerCapture(event.pointerId);
    this.pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    if (this.pointers.size === 1) {
      this.travel = 0;
      this.dragged = event.target.closest('.mark.train, .mark.coin');
    }
  }

  move(event) {
    const last = this.pointers.get(event.pointerId);
    if (!last) return;
    const now = { x: event.clientX, y: event.clientY };
    this.travel += Math.hypot(now.x - last.x, now.y - last.y);
    if (this.pointers.size === 2) this.pinch(event.pointerId, last, now);
    else if (this.dragged && this.travel > 5) this.drag(event);
    else if (!this.dragged && this.travel > 5) this.pan(last, now);
    this.pointers.set(event.pointerId, now);
  }

  drag(event) {
    const { x, y } = this.place(event);
    this.dragged.at = { x, y };
    this.draw();
  }

  pan(last, now) {
    this.view.x -= (now.x - last.x) * this.view.scale;
    this.view.y -= (now.y - last.y) * this.view.scale;
    this.draw();
  }

  pinch(id, last, now) {
    const [other] = [...this.pointers].filter(([key]) => key !== id).map(([, at]) => at);
    const before = Math.hypot(last.x - other.x, last.y - other.y);
    const after = Math.hypot(now.x - other.x, now.y - other.y);
    const box = this.host.getBoundingClientRect();
    if (before > 0 && after > 0) this.zoomAt(after / before, (now.x + other.x) / 2 - box.left, (now.y + other.y) / 2 - box.top);
  }

  up(event) {
    const known = this.pointers.delete(event.pointerId);
    const dragged = this.dragged;
    this.dragged = null;
    if (!known || this.pointers.size > 0) return;
    const { x, y } = this.place(event);
    if (dragged && this.travel > 5) this.dropped(dragged, x, y);
    else if (this.travel <= 5) this.touch(event, x, y);
  }

  dropped(dragged, x, y) {
    this.page.invokeMethodAsync('Dropped', dragged.getAttribute('data-mark'), x, y);
  }

  cancel(event) {
    this.pointers.delete(event.pointerId);
    this.dragged = null;
  }

  // The pointer is captured by the board: look up what lies under it.
  touch(event, x, y) {
    const found = document.elementFromPoint(event.clientX, event.clientY);
    const mark = found?.closest('[data-mark]');
    if (mark) this.page.invokeMethodAsync('Marked', mark.getAttribute('data-mark'));
    else this.page.invokeMethodAsync('Touched', found?.closest('[data-layer="touch"] [data-of]')?.getAttribute('data-of') ?? '', x, y);
  }

  wheel(event) {
    if (!this.view) return;
    event.preventDefault();
    const { left, top } = this.place(event);
    this.zoomAt(Math.exp(-event.deltaY * 0.0015), left, top);
  }

  key(event) {
    const step = 40 * (this.view?.scale ?? 0);
    const acts = {
      ArrowLeft: () => { this.view.x -= step; },
      ArrowRight: () => { this.view.x += step; },
      ArrowUp: () => { this.view.y -= step; },
      ArrowDown: () => { this.view.y += step; },
      '+': () => this.zoom(1.25),
      '-': () => this.zoom(0.8),
      0: () => this.fit(),
    };
    const act = this.view && !event.ctrlKey && !event.metaKey && !event.altKey ? acts[event.key] : undefined;
    if (!act) return;
    event.preventDefault();
    act();
    this.draw();
  }

  close() {
    this.stop.abort();
    this.size.disconnect();
    cancelAnimationFrame(this.frame);
  }
}

// What the page shows stands in its address, without asking the server for it.
export function remember(address) {
  history.replaceState(history.state, '', address);
}
