using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace WireUp.Commands;

/// <summary>A command whose help text has a summary, shown everywhere, and more, shown only in its own help.</summary>
internal sealed class VerbCommand : Command
{
    /// <summary>A verb.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="help">The summary, a blank line, and more: examples, exit codes.</param>
    public VerbCommand(string name, string help)
        : base(name, help.ReplaceLineEndings("\n").Split("\n\n", 2)[0].Replace('\n', ' ')) =>
        More = help.ReplaceLineEndings("\n").Split("\n\n", 2)[^1];

    /// <summary>What stands below the options in the verb's own help.</summary>
    public string More { get; }
}

/// <summary>The usual help, followed by what a verb has more to say.</summary>
internal sealed class VerbHelp(HelpAction usual) : SynchronousCommandLineAction
{
    /// <summary>Puts this help in the place of the usual one.</summary>
    public static void Install(RootCommand root)
    {
        HelpOption option = root.Options.OfType<HelpOption>().Single();
        option.Action = new VerbHelp((HelpAction)option.Action!);
    }

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        int code = usual.Invoke(parseResult);
        if (parseResult.CommandResult.Command is VerbCommand verb)
        {
            parseResult.InvocationConfiguration.Output.WriteLine(verb.More);
        }

        return code;
    }
}
