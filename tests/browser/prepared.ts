/** Made before the first browser test, and not in its time. */
import { demoTemplate } from '../demo-template.ts';

export default async function prepare(): Promise<void> {
  await demoTemplate();
}
