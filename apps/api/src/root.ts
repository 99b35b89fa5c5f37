import { fileURLToPath } from 'node:url';

/** The project's folder. This file and the bundle made of it lie equally deep below it. */
export const projectRoot = fileURLToPath(new URL('../../../', import.meta.url));
