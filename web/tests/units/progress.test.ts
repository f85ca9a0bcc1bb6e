import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { no_progress, progress, told_progress } from '../../src/state/events';

const told = (share: number) => told_progress({ id: 'a', job: 'plan', share, says: '' });

describe('long work', () => {
  beforeEach(() => { vi.useFakeTimers(); });
  afterEach(() => { no_progress(); vi.useRealTimers(); });
  it('that is soon over is not spoken of', () => {
    told(0);
    vi.advanceTimersByTime(1000);
    told(1);
    vi.advanceTimersByTime(5000);
    expect(progress.value).toBeNull();
  });
  it('is told of after a while, with the newest share, until it is over or stopped', () => {
    told(0);
    vi.advanceTimersByTime(1000);
    told(0.3);
    vi.advanceTimersByTime(600);
    expect(progress.value?.share).toBe(0.3);
    told(0.5);
    expect(progress.value?.share).toBe(0.5);
    told(1);
    expect(progress.value).toBeNull();
  });
});
