/** What is known of one key of a recipe: for hovers, completions, messages, the canonical order and layout. */
export interface KeyDescription {
  readonly type: string | readonly string[];
  readonly description?: string;
  readonly unit?: string;
  /** Least and greatest value; of a list of numbers, those of its items. */
  readonly minimum?: number;
  readonly maximum?: number;
  readonly enum?: readonly (string | number)[];
  readonly default?: unknown;
  /** The default in words, where it depends on something. */
  readonly defaultText?: string;
  /** Values as they would be written in YAML. */
  readonly examples?: readonly (string | number | boolean)[];
  readonly minItems?: number;
  readonly maxItems?: number;
  /** The keys below, in canonical order. */
  readonly keys?: readonly string[];
  readonly requiredKeys?: readonly string[];
  /** What free keys below look like. */
  readonly keyPattern?: string;
  readonly required?: boolean;
  /** How the value is laid out: on one line, or as rows. Otherwise as a block. */
  readonly layout?: "flow" | "rows";
  /** The mapping is inherited as a whole, never merged key by key. */
  readonly whole?: boolean;
  /** The text is a path or the name of a file. */
  readonly isPath?: boolean;
}
