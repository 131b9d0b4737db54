//! `setwright completions`.

use clap::ValueEnum;
use clap_complete::env::Shells;

use super::complete::VARIABLE;
use super::{Failure, output};

/// Print a shell script that completes commands and names
///
/// Completes commands, options and files, and names from the project: athletes, days, exercises,
/// programmes and gyms.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright completions bash \\
      > ~/.local/share/bash-completion/completions/setwright
  setwright completions fish > ~/.config/fish/completions/setwright.fish
  setwright completions zsh > \"${fpath[1]}/_setwright\"")]
pub struct Args {
    /// The shell
    #[arg(value_enum, value_name = "SHELL")]
    shell: Shell,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum Shell {
    Bash,
    Zsh,
    Fish,
}

/// A name such as `Wren Tallow` is one word to bash only if it is quoted as it is put in.
const BASH_QUOTES: &str = r#"
_setwright_quoted() {
    _clap_complete_setwright "$@"
    case "${COMP_WORDS[COMP_CWORD]}" in
        \"* | \'*) return ;;
    esac
    local i
    for i in "${!COMPREPLY[@]}"; do
        printf -v "COMPREPLY[i]" '%q' "${COMPREPLY[i]}"
    done
}
"#;

/// In a folder of functions the script is called the first time as the function it defines.
const ZSH_FIRST_CALL: &str = r#"
if [ "${funcstack[1]}" = "_setwright" ]; then
    _clap_dynamic_completer_setwright "$@"
fi
"#;

pub fn run(args: &Args) -> Result<(), Failure> {
    output::text(None, &script(args.shell)?)
}

/// The script: it asks the `setwright` on the path for candidates.
fn script(shell: Shell) -> Result<String, Failure> {
    let name = match shell {
        Shell::Bash => "bash",
        Shell::Zsh => "zsh",
        Shell::Fish => "fish",
    };
    let cannot = |why: String| Failure::File(format!("the script for {name}: {why}"));
    let mut script = Vec::new();
    Shells::builtins()
        .completer(name)
        .ok_or_else(|| cannot("there is none".to_owned()))?
        .write_registration(VARIABLE, "setwright", "setwright", "setwright", &mut script)
        .map_err(|error| cannot(error.to_string()))?;
    let script = String::from_utf8_lossy(&script).trim().to_owned();
    Ok(match shell {
        Shell::Bash => {
            let registered = script.replace("-F _clap_complete_setwright", "-F _setwright_quoted");
            format!("{}\n{registered}\n", BASH_QUOTES.trim_start())
        }
        Shell::Zsh => {
            // The program finds names whatever the capitals; zsh would drop them again.
            let given = "_describe -V 'values' other";
            let any_case = format!("{given} -M 'm:{{[:lower:][:upper:]}}={{[:upper:][:lower:]}}'");
            format!("{}\n{ZSH_FIRST_CALL}", script.replace(given, &any_case))
        }
        Shell::Fish => format!("{script}\n"),
    })
}
