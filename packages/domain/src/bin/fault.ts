/** One thing wrong with a value, and where: `$.bin.areaM2`. */
export interface Fault {
  readonly path: string;
  readonly message: string;
}

export interface NumberLimits {
  readonly min?: number;
  readonly max?: number;
  /** The limits themselves are not allowed. */
  readonly open?: boolean;
  readonly whole?: boolean;
}

type Fields = Readonly<Record<string, unknown>>;

const shown = (value: unknown): string => {
  const text = typeof value === 'string' ? `"${value}"` : value === undefined ? 'nothing' : JSON.stringify(value);
  return (text ?? String(value)).slice(0, 60);
};

/** Collects every fault of a value that should have a known shape; stops at none. */
export class Checker {
  readonly faults: Fault[] = [];

  say(path: string, message: string): void {
    this.faults.push({ path, message });
  }

  /** The fields of an object that has none but the allowed ones, or null. */
  object(path: string, value: unknown, allowed: readonly string[]): Fields | null {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      this.say(path, `must be an object: current value is ${shown(value)}`);
      return null;
    }
    for (const key of Object.keys(value))
      if (!allowed.includes(key)) this.say(`${path}.${key}`, `is not known here; known are ${allowed.join(', ')}`);
    return value as Fields;
  }

  list(path: string, value: unknown, limits: { readonly min?: number; readonly max: number }): readonly unknown[] {
    if (!Array.isArray(value)) {
      this.say(path, `must be a list: current value is ${shown(value)}`);
      return [];
    }
    if (value.length < (limits.min ?? 0) || value.length > limits.max)
      this.say(path, `must have ${limits.min ?? 0} to ${limits.max} entries: current value has ${value.length}`);
    return value;
  }

  number(path: string, value: unknown, limits: NumberLimits): void {
    const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY, open = false, whole = false } = limits;
    const inside =
      typeof value === 'number' && Number.isFinite(value) && (open ? value > min && value < max : value >= min && value <= max);
    if (inside && (!whole || Number.isInteger(value))) return;
    const kind = whole ? 'a whole number' : 'a number';
    const range = open ? `above ${min} and below ${max}` : `from ${min} to ${max}`;
    this.say(path, `must be ${kind} ${range}: current value is ${shown(value)}`);
  }

  optionalNumber(path: string, value: unknown, limits: NumberLimits): void {
    if (value !== undefined) this.number(path, value, limits);
  }

  oneOf(path: string, value: unknown, allowed: readonly string[]): void {
    if (typeof value !== 'string' || !allowed.includes(value))
      this.say(path, `must be one of ${allowed.join(', ')}: current value is ${shown(value)}`);
  }

  optionalOneOf(path: string, value: unknown, allowed: readonly string[]): void {
    if (value !== undefined) this.oneOf(path, value, allowed);
  }

  optionalFlag(path: string, value: unknown): void {
    if (value !== undefined && typeof value !== 'boolean') this.say(path, `must be true or false: current value is ${shown(value)}`);
  }
}
