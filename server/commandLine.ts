/** A command whose arguments are refused all at once, as every other input is: the library stops at the first. */
import { Command, InvalidArgumentError, type Option } from 'commander';

/** A refused value is put aside until all are read; then each is told in the library's words, and nothing is done. */
export class WholeCommand extends Command {
  readonly #refused: string[] = [];

  constructor(name?: string) {
    super(name);
    this.hook('preAction', () => {
      if (this.#refused.length > 0) this.error('', { code: 'commander.invalidArgument' });
    });
  }

  override createCommand(name?: string): Command {
    return new WholeCommand(name);
  }

  override addOption(option: Option): this {
    const { parseArg } = option;
    if (parseArg)
      option.argParser((text: string, previous: unknown) => {
        try {
          return parseArg(text, previous);
        } catch (error) {
          if (!(error instanceof InvalidArgumentError)) throw error;
          this.#refused.push(`error: option '${option.flags}' argument '${text}' is invalid. ${error.message}`);
          // The option is there, if not as it should be: it is not told as missing too.
          return text;
        }
      });
    return super.addOption(option);
  }

  /** Ends the command with all that is wrong: `message`, values refused before it, required options and unknown ones. */
  override error(message: string, errorOptions?: { exitCode?: number; code?: string }): never {
    const unknown = UNKNOWN_KNOWN.includes(errorOptions?.code ?? '') ? this.#unknown(message) : [];
    const lines = [message, ...this.#refused, ...this.#missing(message), ...unknown];
    super.error(lines.filter((line) => line !== '').join('\n'), errorOptions);
  }

  #missing(message: string): string[] {
    return this.options
      .filter((option) => option.mandatory && this.getOptionValue(option.attributeName()) === undefined)
      .filter((option) => !message.includes(`'${option.flags}'`))
      .map((option) => `error: required option '${option.flags}' not specified`);
  }

  #unknown(message: string): string[] {
    return this.args
      .filter((argument) => /^-./.test(argument) && !message.includes(`'${argument}'`))
      .map((argument) => `error: unknown option '${argument}'`);
  }
}

/** The library's own faults at which all arguments have been read, so that what is left of them is unknown. */
const UNKNOWN_KNOWN = ['commander.unknownOption', 'commander.missingMandatoryOptionValue'];
