// What every board of the page has in common: pan and zoom, and which finger does what. All of that happens here; a board is an SVG
// picture, signs that keep their size over it, and what it makes of a touch.
const largeFrom = 2500; // shapes: a picture of more is moved as one, and drawn anew once it rests
const restAfter = 120; // milliseconds
const margin = 0.5; // of a large picture on every side of what is seen, so that it can be moved some way before it is drawn anew
const smallestWords = 0.9; // millimetres of the sheet to a point of the screen: letters of the plan are too small to read beyond it

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
    this.rest = 0;
    this.stop = new AbortController();
    const on = (kind, act, more) => host.addEventListener(kind, act.bind(this), { signal: this.stop.signal, ...more });
    on('pointerdown', this.down);
    on('pointermove', this.move);
    on('pointerup', this.up);
    on('pointercancel', this.cancel);
    on('wheel', this.wheel, { passive: false });
    on('keydown', this.key);
    this.size = new ResizeObserver(() => {
      this.laid = null;
      this.draw();
    });
    this.size.observe(host);
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
      if (this.laid && this.isLarge) this.slide();
      else this.lay();
    });
  }

  // Moves the picture that is there, as one; it is drawn anew for where it lies once it rests.
  slide() {
    const [from, to] = [this.laid, this.view];
    const { style } = this.svg;
    const larger = from.scale / to.scale;
    const [right, down] = [(from.x - to.x) / to.scale, (from.y - to.y) / to.scale];
    const { clientWidth, clientHeight } = this.host;
    if (larger > 2 || larger < 0.5 || Math.abs(right) > margin * clientWidth || Math.abs(down) > margin * clientHeight) {
      this.lay();
      return;
    }

    this.turnSigns(from.scale);
    if (right === 0 && down === 0 && larger === 1 && !style.transform) return;
    style.transform = `translate(${right}px, ${down}px) scale(${larger})`;
    clearTimeout(this.rest);
    this.rest = setTimeout(() => {
      this.laid = null;
      this.draw();
    }, restAfter);
  }

  // The picture is another one.
  renewed() {
    this.laid = null;
    this.isLarge = this.svg.getElementsByTagName('*').length > largeFrom;
  }

  // Draws the plan as it is looked at.
  lay() {
    const { x, y, scale } = this.view;
    const [width, height] = [this.host.clientWidth, this.host.clientHeight];
    const more = this.isLarge ? margin : 0;
    const { style } = this.svg;
    this.laid = this.isLarge ? { x, y, scale } : null;
    style.transform = '';
    const size = this.isLarge ? [`${(1 + 2 * more) * width}px`, `${(1 + 2 * more) * height}px`, `${-more * height}px 0 0 ${-more * width}px`, `${more * width}px ${more * height}px`] : ['', '', '', ''];
    [style.width, style.height, style.margin, style.transformOrigin] = size;
    this.svg.setAttribute('viewBox', `${x - more * width * scale} ${y - more * height * scale} ${(1 + 2 * more) * width * scale} ${(1 + 2 * more) * height * scale}`);
    this.host.toggleAttribute('data-far', scale > smallestWords);
    this.turnSigns(scale);
  }

  // Signs keep their size on the screen; while the picture is moved they grow and shrink with it, and only one that is dragged moves.
  turnSigns(scale) {
    for (const sign of this.marksGroup.children) {
      const place = `translate(${sign.at.x} ${sign.at.y}) scale(${scale})`;
      if (sign.getAttribute('transform') !== place) sign.setAttribute('transform', place);
    }
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
      this.dragged = event.target.closest('.movable');
      if (this.dragged) this.dragged.home = this.dragged.at;
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

  cancel(event) {
    this.pointers.delete(event.pointerId);
    this.dragged = null;
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
    clearTimeout(this.rest);
  }
}
