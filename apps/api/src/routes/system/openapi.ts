import { route } from '../../routing/route.ts';
import { openapiText } from '../../services/openapi.ts';

export const openapi = route('openapi', () => openapiText());
