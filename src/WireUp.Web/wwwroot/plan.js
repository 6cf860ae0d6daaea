// The plan on the page: shows it, and tells which piece was touched and where. Only touches cross to the server, and only changed
// shapes come back.
import { Board } from './board.js';

const svgName = 'http://www.w3.org/2000/svg';
const markRadius = 11;
const words = new TextDecoder();

export function open(host, page) {
  return new PlanBoard(host, page);
}

class PlanBoard extends Board {
  // A plan is there together with what a finger hits, so that no touch of what can be seen is lost.
  show(text, touch) {
    const svg = document.importNode(parsed(words.decode(text)), true);
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
    this.replace('touch', words.decode(touch));
    this.rails = null;
    this.renewed();
    if (sameSheet) this.draw();
    else this.fit();
  }

  // What changed since: rails, the path that is lit, signs, the place to look at, and what stands in the page's address.
  update(change) {
    if (change.rails) this.renew(change.gone, change.rails);
    if (change.path) this.replace('path', change.path);
    if (change.marks) this.marks(change.marks);
    if (change.goTo) this.goTo(...change.goTo);
    history.replaceState(history.state, '', change.address);
  }

  // Rails of some names make room for others.
  renew(gone, text) {
    if (!this.svg) return;
    if (!this.rails) {
      this.rails = new Map();
      for (const shape of this.svg.querySelectorAll('[data-layer="rails"] [data-of]')) keep(this.rails, shape);
    }

    const fresh = new Map();
    for (const shape of document.importNode(group(text), true).children) keep(fresh, shape);
    for (const name of new Set([...gone, ...fresh.keys()])) {
      const old = this.rails.get(name) ?? [];
      const shapes = fresh.get(name) ?? [];
      if (old.length > 0) old[0].before(...shapes);
      else this.svg.querySelector('[data-layer="rails"]')?.append(...shapes);
      for (const shape of old) shape.remove();
      this.rails.set(name, shapes);
    }
  }

  // A group of shapes takes the place of the one of that name, or lies on top where there is none.
  replace(layer, text) {
    if (!this.svg) return;
    const fresh = document.importNode(group(text), true);
    const old = [...this.svg.children].find(group => group.getAttribute('data-layer') === layer);
    if (old) old.replaceWith(fresh);
    else this.svg.insertBefore(fresh, this.marksGroup);
  }

  marks(list) {
    if (!this.svg) return;
    this.marksGroup.replaceChildren(...list.map(mark => {
      const group = document.createElementNS(svgName, 'g');
      group.setAttribute('class', `mark ${mark.kind}${mark.kind === 'train' || mark.kind === 'coin' ? ' movable' : ''}`);
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
      const letters = document.createElementNS(svgName, 'text');
      letters.setAttribute('y', '4');
      letters.textContent = mark.text;
      group.append(title, sign, letters);
      return group;
    }));

    // A sign that is being dragged stays under the finger.
    const held = this.dragged && [...this.marksGroup.children].find(group => group.getAttribute('data-mark') === this.dragged.getAttribute('data-mark'));
    if (held) {
      held.home = held.at;
      held.at = this.dragged.at;
      this.dragged = held;
    }

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

  // While it is dragged its place is told again and again, the newest as soon as the answer to the last is there.
  async drag(event) {
    const { x, y } = this.place(event);
    const name = this.dragged.getAttribute('data-mark');
    this.dragged.at = { x, y };
    this.draw();
    this.newest = { x, y };
    if (this.isAsking) return;
    this.isAsking = true;
    try {
      while (this.newest) {
        const at = this.newest;
        this.newest = null;
        await this.page.invokeMethodAsync('Dropped', name, at.x, at.y);
      }
    } finally {
      this.isAsking = false;
    }
  }

  async dropped(dragged, x, y) {
    const name = dragged.getAttribute('data-mark');
    this.newest = null;
    await this.page.invokeMethodAsync('Dropped', name, x, y);
    for (const sign of this.marksGroup.children) {
      if (sign.home && sign !== this.dragged) sign.at = sign.home;
    }

    this.draw();
  }

  // The pointer is captured by the board: look up what lies under it.
  touch(event, x, y) {
    const found = document.elementFromPoint(event.clientX, event.clientY);
    const mark = found?.closest('[data-mark]');
    if (mark) this.page.invokeMethodAsync('Marked', mark.getAttribute('data-mark'));
    else this.page.invokeMethodAsync('Touched', found?.closest('[data-layer="touch"] [data-of]')?.getAttribute('data-of') ?? '', x, y);
  }
}

function parsed(text) {
  return new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
}

function group(text) {
  return parsed(`<svg xmlns="${svgName}">${text}</svg>`).firstElementChild;
}

function keep(map, shape) {
  const name = shape.getAttribute('data-of');
  if (map.has(name)) map.get(name).push(shape);
  else map.set(name, [shape]);
}
