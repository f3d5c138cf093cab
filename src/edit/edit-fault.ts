/** An edit that cannot be made: what stands in the way, and what would do. */
export class EditFault extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'EditFault';
  }
}
