import type { Context } from '../../context.ts';

/** Told beside the backups at once, so that none of them brings back what is gone; a disk that is away hears of it at the next backup. */
export const keepErasures = ({ keeper }: Pick<Context, 'keeper'>): void => keeper?.noteErasures();
