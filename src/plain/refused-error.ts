/**
 * Thrown instead of a number that would mean nothing: says which function, what it needed, what it got, what to do. Its message is for
 * programmers; what a report says of it is looked up by the fault.
 */
export abstract class RefusedError<Fault extends string> extends Error {
  abstract override readonly name: string;
  readonly where: string;
  /** So that a caller can act on the kind and not on the wording. */
  readonly fault: Fault;

  constructor(where: string, fault: Fault, detail: string) {
    super(`${where} ${detail}`);
    this.where = where;
    this.fault = fault;
  }
}
