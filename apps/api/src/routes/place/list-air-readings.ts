import { route } from '../../routing/route.ts';
import { listAirReadings as list } from '../../services/air.ts';

export const listAirReadings = route('listAirReadings', (call) => list(call, call.params.id, call.query));
