/** What a process has used so far, as Linux tells it. */
import { readFileSync, writeFileSync } from 'node:fs';

/** Places of user and system time in /proc/PID/stat, counted after the name; those of ended children follow. */
const [USER_TIME, SYSTEM_TIME, CHILDREN_USER_TIME, CHILDREN_SYSTEM_TIME] = [11, 12, 13, 14];
const TICKS_PER_S = 100;
const KB_PER_MB = 1024;

/** The most memory that a process has held [MB]; 0 once it is gone. */
export function mostMemoryMb(pid: number): number {
  try {
    return Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? 0) / KB_PER_MB;
  } catch {
    return 0;
  }
}

/** Lets the most memory begin anew with what the process holds now. */
export const forgetMostMemory = (pid: number): void => writeFileSync(`/proc/${pid}/clear_refs`, '5');

const times = (pid: number | 'self', places: readonly number[]): number => {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').at(-1)!.split(' ');
    return places.reduce((sum, place) => sum + Number(fields[place]), 0) / TICKS_PER_S;
  } catch {
    return 0;
  }
};

/** Processor time that a process has had [s]: on a busy machine it says more than the clock. Linux counts it in hundredths. */
export const processorS = (pid: number): number => times(pid, [USER_TIME, SYSTEM_TIME]);

/** Processor time of the programs that this process started and that have ended [s]. */
export const endedChildrenS = (): number => times('self', [CHILDREN_USER_TIME, CHILDREN_SYSTEM_TIME]);
