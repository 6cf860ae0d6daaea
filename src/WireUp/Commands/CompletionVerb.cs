using System.CommandLine;
using WireUp.Output;

namespace WireUp.Commands;

/// <summary><c>wireup completion</c>: what makes a shell complete commands, options and their words.</summary>
internal sealed class CompletionVerb(Terminal terminal)
{
    private const string Bash = """
        # wireup completion bash: in ~/.bashrc put   source <(wireup completion bash)
        _wireup() {
          local IFS=$'\n'
          COMPREPLY=($(compgen -W "$(wireup "[suggest:$COMP_POINT]" "$COMP_LINE" 2>/dev/null)" -- "${COMP_WORDS[COMP_CWORD]}"))
        }
        complete -o default -F _wireup wireup
        """;

    private const string Zsh = """
        # wireup completion zsh: in ~/.zshrc, after compinit, put   source <(wireup completion zsh)
        _wireup() {
          local -a found
          found=("${(@f)$(wireup "[suggest:$CURSOR]" "$BUFFER" 2>/dev/null)}")
          [[ -n "$found" ]] && compadd -- $found
          _files
        }
        compdef _wireup wireup
        """;

    private const string Fish = """
        # wireup completion fish: wireup completion fish > ~/.config/fish/completions/wireup.fish
        function __wireup_words
          set -l line (commandline -cp)
          wireup "[suggest:"(string length -- "$line")"]" "$line" 2>/dev/null
        end
        complete -c wireup -a '(__wireup_words)'
        """;

    private const string PowerShell = """
        # wireup completion powershell: in $PROFILE put   wireup completion powershell | Out-String | Invoke-Expression
        Register-ArgumentCompleter -Native -CommandName wireup -ScriptBlock {
          param($word, $line, $cursor)
          wireup "[suggest:$cursor]" "$line" 2>$null | Where-Object { $_ -like "$word*" } | ForEach-Object {
            [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_)
          }
        }
        """;

    private static readonly Dictionary<string, string> Scripts = new() { ["bash"] = Bash, ["zsh"] = Zsh, ["fish"] = Fish, ["powershell"] = PowerShell };

    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<string> shell = new("shell") { Description = "bash, zsh, fish or powershell." };
        shell.AcceptOnlyFromAmong([.. Scripts.Keys]);
        VerbCommand command = new("completion", """
            Prints what makes your shell complete commands and options.

            The first line of what is printed says where to put it.

            Examples:
              source <(wireup completion bash)
              wireup completion fish > ~/.config/fish/completions/wireup.fish
            """)
        {
            shell,
        };
        command.Runs<CompletionVerb>((verb, parsed, _) => Task.FromResult(verb.Run(parsed.GetRequiredValue(shell))));
        return command;
    }

    private int Run(string shell)
    {
        terminal.Write(Scripts[shell].ReplaceLineEndings("\n") + "\n");
        return ExitCode.Fine;
    }
}
