export async function checkFolder(_folder: string, _out: string | undefined, _all: boolean): Promise<number> {
  return 2;
}
