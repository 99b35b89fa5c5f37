import { describe, expect, it } from 'vitest';
import { followChanges, type Stream, staleAfter } from './changes.ts';

function harness() {
  let listeners = new Map<string, (event: { data?: string }) => void>();
  const later: (() => void)[] = [];
  const seen: string[][] = [];
  const states: boolean[] = [];
  const status = { closed: false, opened: 0, readyState: 1 };
  const open = (): Stream => {
    status.opened += 1;
    listeners = new Map();
    return {
      get readyState() {
        return status.readyState;
      },
      addEventListener: (type, listener) => void listeners.set(type, listener),
      close: () => {
        status.closed = true;
      },
    };
  };
  const stop = followChanges({
    open,
    onChange: (t) => seen.push([...t].sort()),
    onState: (live) => states.push(live),
    wait: (run) => later.push(run),
  });
  return {
    emit: (type: string, data?: string) => listeners.get(type)?.(data === undefined ? {} : { data }),
    runTimers: () => {
      for (const run of later.splice(0)) run();
    },
    seen,
    states,
    stop,
    status,
  };
}

describe('followChanges()', () => {
  it('shows many changes at once as one', () => {
    const h = harness();
    h.emit('open');
    for (const topic of ['entry', 'entry', 'shift']) h.emit('change', JSON.stringify({ topic, subject: 'x' }));
    expect(h.seen).toEqual([]);
    h.runTimers();
    expect(h.seen).toEqual([['entry', 'shift']]);
    h.emit('change', JSON.stringify({ topic: 'bin', subject: 'x' }));
    h.runTimers();
    expect(h.seen).toEqual([['entry', 'shift'], ['bin']]);
  });
  it('reads everything anew after a reset or a line it cannot read', () => {
    const h = harness();
    h.emit('reset');
    h.emit('change', 'half a li');
    h.runTimers();
    expect(h.seen).toEqual([['all']]);
  });
  it('says when it is not live, and stops for good', () => {
    const h = harness();
    h.emit('open');
    h.emit('error');
    h.emit('open');
    expect(h.states).toEqual([true, false, true]);
    h.emit('reset');
    h.stop();
    h.runTimers();
    expect([h.seen, h.status.closed]).toEqual([[], true]);
  });
});

describe('followChanges() after the browser gave up', () => {
  it('opens anew and reads everything, since nobody knows what was missed', () => {
    const h = harness();
    h.emit('open');
    h.emit('error');
    h.runTimers();
    expect(h.status.opened).toBe(1); // the browser itself comes back
    h.status.readyState = 2;
    h.emit('error');
    h.runTimers();
    expect(h.status.opened).toBe(2);
    h.emit('open');
    h.runTimers();
    expect(h.seen).toEqual([['all']]);
  });
});

describe('staleAfter()', () => {
  it('names the loads that lean on what changed', () => {
    expect(staleAfter(new Set(['entry']))).toEqual(['app:board', 'app:bin']);
    expect(staleAfter(new Set(['shift']))).toEqual(['app:board', 'app:shifts']);
    expect(staleAfter(new Set(['all']))).toEqual(['app:board', 'app:bin', 'app:shifts', 'app:session']);
    expect(staleAfter(new Set(['stuff']))).toEqual([]);
  });
});
