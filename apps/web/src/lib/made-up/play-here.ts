/** The model on this thread. In a file of its own: fetched as a whole, the domain would come with every page (B26). */
export { playMadeUp } from '@middenry/domain';
