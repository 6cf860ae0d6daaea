using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using WireUp.Files;
using WireUp.Output;

namespace WireUp.Commands;

/// <summary>The command line: parses, builds the host, runs one verb, and turns what goes wrong into words and an exit code.</summary>
internal static class Verbs
{
    private const string Quiet = "--quiet", Verbose = "--verbose";

    /// <summary>Runs the program.</summary>
    public static async Task<int> RunAsync(string[] args)
    {
        ParseResult parsed;
        try
        {
            parsed = Root().Parse(args);
        }
        catch (ArgumentException unusable)
        {
            // A path with a NUL character, which an argument cannot hold but a file of arguments (@file) can.
            await Console.Error.WriteLineAsync($"wireup: {unusable.Message}").ConfigureAwait(false);
            return ExitCode.BadInput;
        }

        if (parsed.Errors.Count > 0 && parsed.Action is not VerbHelp)
        {
            return Refuse(parsed);
        }

        return await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false }).ConfigureAwait(false);
    }

    /// <summary>The action of a verb: the host is built only once a verb is to run, so that help and errors stay quick.</summary>
    public static void Runs<TVerb>(this Command command, Func<TVerb, ParseResult, CancellationToken, Task<int>> run)
        where TVerb : class => command.SetAction(async (parsed, cancel) =>
    {
        using IHost host = BuildHost();
        Terminal terminal = host.Services.GetRequiredService<Terminal>();
        (terminal.IsQuiet, terminal.IsVerbose) = (parsed.GetValue<bool>(Quiet), parsed.GetValue<bool>(Verbose));
        long start = Stopwatch.GetTimestamp();
        try
        {
            int code = await run(host.Services.GetRequiredService<TVerb>(), parsed, cancel).ConfigureAwait(false);
            if (terminal.IsVerbose)
            {
                terminal.Note(string.Create(CultureInfo.InvariantCulture, $"took {Stopwatch.GetElapsedTime(start).TotalSeconds:0.0} s"));
            }

            return code;
        }
        catch (OperationCanceledException)
        {
            terminal.Complain("stopped; nothing was written");
            return ExitCode.Stopped;
        }
        catch (InputRefused refused)
        {
            terminal.Complain(refused.Message);
            return ExitCode.BadInput;
        }
        catch (IOException failure)
        {
            terminal.Complain($"the results cannot be printed, or something cannot be read: {failure.Message}");
            return ExitCode.BadInput;
        }
        catch (Exception defect) when (defect is not OutOfMemoryException)
        {
            terminal.Complain($"this is a defect of wireup itself, please report it with the layout file\n{defect}");
            return ExitCode.Defect;
        }
    });

    /// <summary>The command line of the program.</summary>
    internal static RootCommand Root()
    {
        RootCommand root = new("""
            Turns a track plan into a railway that runs: checks polarity, plans the wiring, solves the layout as a circuit,
            and prints the wiring book.

            The usual way:
              wireup new my.layout.yaml            start a layout file, then describe the track in it
              wireup import my.svg -o my.layout.yaml --width '3.2 m'    or trace it from a drawing
              wireup check my.layout.yaml          what is wrong or missing
              wireup plan my.layout.yaml --out book/    propose the wiring and print the wiring book
              wireup power my.layout.yaml          volts and fault current at the worst places
              wireup diagnose my.layout.yaml --symptom 'stops at spur@0.6 m'    where the fault is, and what to measure next
              wireup wire '12 m' '5 A'             which size of wire
              wireup compare old.layout.yaml new.layout.yaml    what to add, cut, move and take away
              wireup explain WU3001                what a finding means and how to mend it
              wireup serve                         all of it on a page in your browser
            """);
        root.Subcommands.Add(CheckVerb.Command());
        root.Subcommands.Add(PlanVerb.Command());
        root.Subcommands.Add(PowerVerb.Command());
        root.Subcommands.Add(DiagnoseVerb.Command());
        root.Subcommands.Add(WireVerb.Command());
        root.Subcommands.Add(DrawVerb.Command());
        root.Subcommands.Add(CompareVerb.Command());
        root.Subcommands.Add(ExportVerb.Command());
        root.Subcommands.Add(NewVerb.Command());
        root.Subcommands.Add(ImportVerb.Command());
        root.Subcommands.Add(ServeVerb.Command());
        root.Subcommands.Add(ExplainVerb.Command());
        root.Subcommands.Add(CompletionVerb.Command());
        root.Options.Add(new Option<bool>(Quiet, "-q") { Description = "Print results, problems and refusals, and no remarks.", Recursive = true });
        root.Options.Add(new Option<bool>(Verbose) { Description = "Tell every step, and how long it took.", Recursive = true });
        SessionVerb.AddTo(root.Subcommands.Single(verb => verb.Name == "power"));
        VerbHelp.Install(root);
        return root;
    }

    private static IHost BuildHost()
    {
        HostApplicationBuilder builder = Host.CreateEmptyApplicationBuilder(new HostApplicationBuilderSettings());
        builder.Services.AddSingleton<Terminal>();
        builder.Services.AddSingleton<LayoutFiles>();
        builder.Services.AddTransient<CheckVerb>();
        builder.Services.AddTransient<PlanVerb>();
        builder.Services.AddTransient<PowerVerb>();
        builder.Services.AddTransient<DiagnoseVerb>();
        builder.Services.AddTransient<WireVerb>();
        builder.Services.AddTransient<DrawVerb>();
        builder.Services.AddTransient<CompareVerb>();
        builder.Services.AddTransient<ExportVerb>();
        builder.Services.AddTransient<NewVerb>();
        builder.Services.AddTransient<ImportVerb>();
        builder.Services.AddTransient<ServeVerb>();
        builder.Services.AddTransient<ExplainVerb>();
        builder.Services.AddTransient<CompletionVerb>();
        builder.Services.AddTransient<SessionVerb>();
        return builder.Build();
    }

    private static int Refuse(ParseResult parsed)
    {
        foreach (System.CommandLine.Parsing.ParseError error in parsed.Errors)
        {
            Console.Error.WriteLine($"wireup: {error.Message}");
        }

        string verb = parsed.CommandResult.Command is RootCommand ? string.Empty : $"{parsed.CommandResult.Command.Name} ";
        Console.Error.WriteLine($"wireup: see 'wireup {verb}--help'");
        return ExitCode.BadInput;
    }
}
