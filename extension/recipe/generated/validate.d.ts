// Made by schemas/generate.mjs; do not edit.

/** One complaint of the validator, as ajv words it. `instancePath` is a JSON pointer (RFC 6901). */
export interface SchemaError {
  readonly instancePath: string;
  readonly schemaPath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
}

/** True when the value keeps the schema; otherwise `errors` holds every complaint until the next call. */
export interface Validator {
  (value: unknown): boolean;
  errors?: readonly SchemaError[] | null;
}

export declare const roll: Validator;
export declare const stock: Validator;
