import { route } from '../../routing/route.ts';
import { auditPage } from '../../services/keep-shape.ts';

export const readAudit = route('readAudit', (call) => auditPage(call, call.query.before, call.query.limit));
