import { route } from '../../routing/route.ts';
import { classesFor } from '../../services/classes.ts';

export const listClasses = route('listClasses', (call) => ({ items: classesFor(call) }));
