using System.CommandLine;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Output;

namespace WireUp.Commands;

/// <summary><c>wireup new</c>: a layout file to begin with.</summary>
internal sealed class NewVerb(Terminal terminal)
{
    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<FileInfo> file = new("file") { Description = "The file to write; its name should end in .layout.yaml." };
        Option<string> name = new("--name") { Description = "The railway's name.", DefaultValueFactory = _ => "My railway" };
        Option<string> scale = new("--scale") { Description = "Its scale: Z, N, TT, HO, OO, S, O, 1, G.", DefaultValueFactory = _ => "HO" };
        VerbCommand command = new("new", """
            Writes a small layout to begin with.

            It is an oval with a passing siding and a spur, with a comment beside every line, ready to be changed
            into yours. An existing file is never overwritten.

            Examples:
              wireup new attic.layout.yaml
              wireup new attic.layout.yaml --name 'The Attic Line' --scale N
            """)
        {
            file, name, scale,
        };
        command.Runs<NewVerb>((verb, parsed, _) => Task.FromResult(verb.Run(
            parsed.GetRequiredValue(file), parsed.GetRequiredValue(name), parsed.GetRequiredValue(scale))));
        return command;
    }

    private int Run(FileInfo file, string name, string scale)
    {
        if (file.Exists)
        {
            throw new InputRefused($"'{file}' exists already and is left as it is; choose another name");
        }

        string text = StarterLayout.Text(name, scale);
        LayoutProblem? problem = LayoutFile.Read(text, file.Name).Problems.FirstOrDefault();
        if (problem is not null)
        {
            throw new InputRefused($"cannot start a layout named '{name}' in scale '{scale}': {problem.Message}; expected {problem.Expected}");
        }

        LayoutFiles.Write(file, text);
        terminal.Note($"wrote {file}; next: wireup check {file}");
        return ExitCode.Fine;
    }
}
