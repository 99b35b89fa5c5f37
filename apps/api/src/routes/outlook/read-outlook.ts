import { route } from '../../routing/route.ts';
import { readOutlook as read } from '../../services/bin-outlook.ts';

export const readOutlook = route('readOutlook', (call) => read(call, call.params.id, call.query.historyDays));
