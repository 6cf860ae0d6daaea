using System.CommandLine;
using System.Reflection;
using WireUp.Checking;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Output;
using WireUp.Planning;

namespace WireUp.Commands;

/// <summary><c>wireup explain</c>: the page of a finding; the reason, rule, working and alternatives of a proposal; what was minimised.</summary>
internal sealed class ExplainVerb(LayoutFiles files, Terminal terminal)
{
    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<string?> what = new("what")
        {
            Description = "A finding's code (WU3001), or with --layout the name of a proposal (gap-3, f12) or of what was minimised (feeders). Left out: a list of all codes.",
            Arity = ArgumentArity.ZeroOrOne,
        };
        Option<FileInfo?> layout = new("--layout") { Description = "The layout whose plan made the proposal." };
        Option<LengthStyle?> lengths = Common.Lengths();
        VerbCommand command = new("explain", """
            Explains a finding or a proposal.

            Of a finding: what is checked, why it matters, how to mend it, when to ignore it, source. Of a proposal of a plan: reason,
            rule, the formula with its numbers put in, and what else was weighed. Of what a plan minimised: what is counted,
            what the plan needs and what no plan can do without.

            Examples:
              wireup explain
              wireup explain WU3001
              wireup explain f12 --layout club.layout.yaml
              wireup explain turn-1 --layout club.layout.yaml
              wireup explain reversing-sections --layout club.layout.yaml
            """)
        {
            what, layout, lengths,
        };
        command.Runs<ExplainVerb>((verb, parsed, cancel) =>
            Task.FromResult(verb.Run(parsed.GetValue(what), parsed.GetValue(layout), parsed.GetValue(lengths), cancel)));
        return command;
    }

    private int Run(string? what, FileInfo? layout, LengthStyle? lengths, CancellationToken cancel) => (what, layout) switch
    {
        (null, _) => List(),
        (_, null) => Page(what),
        _ => OfPlan(what, layout, lengths, cancel),
    };

    private int List()
    {
        foreach (LayoutRule rule in LayoutRules.All)
        {
            terminal.Markup($"[bold]{rule.Code}[/] {(rule.Severity == ProblemSeverity.Error ? "error" : "warning"),-8} {Words.Plain(rule.Title)}");
        }

        foreach (FindingDescriptor rule in FindingCatalogue.All)
        {
            terminal.Markup($"[bold]{rule.Code}[/] {rule.Severity.Word(),-8} {Words.Plain(rule.Title)}");
        }

        return ExitCode.Fine;
    }

    private int Page(string what)
    {
        string code = what.ToUpperInvariant();
        if (LayoutRules.All.FirstOrDefault(rule => rule.Code == code) is { } problem)
        {
            terminal.Markup($"[bold]{problem.Code}[/] {Words.Plain(problem.Title)} (in the layout file)");
            terminal.Markup(Words.Plain(problem.Help));
            return ExitCode.Fine;
        }

        if (PageOf(code) is not { } page)
        {
            throw new InputRefused(
                $"there is no finding '{what}'; 'wireup explain' lists them all; a proposal's name needs --layout FILE");
        }

        terminal.Write(page);
        return ExitCode.Fine;
    }

    private int OfPlan(string what, FileInfo layout, LengthStyle? lengths, CancellationToken cancel)
    {
        PlanResult plan = Planner.Plan(files.Read(layout).In(lengths), new() { SearchAlternatives = true }, null, cancel);
        if (plan.Find(what) is { } proposal)
        {
            Tell(proposal, plan.After.Lengths);
        }
        else if (plan.Objectives.FirstOrDefault(objective => string.Equals(objective.Name, what, StringComparison.OrdinalIgnoreCase)) is { } objective)
        {
            Tell(objective);
        }
        else
        {
            throw new InputRefused($"the plan of '{layout.Name}' makes no proposal '{what}' and minimises nothing of that name; 'wireup plan {layout.Name}' shows them");
        }

        return ExitCode.Fine;
    }

    private void Tell(Proposal proposal, LengthStyle lengths)
    {
        terminal.Markup($"[bold]{Words.Plain(proposal.Id)}[/]  {Words.Of(proposal.Kind)} at {Words.Plain(lengths.Retell(proposal.At))}");
        terminal.Markup($"why:   {Words.Plain(proposal.Reason)}");
        foreach (string line in proposal.Working)
        {
            terminal.Markup($"       {Words.Plain(line)}");
        }

        foreach (string other in proposal.Alternatives)
        {
            terminal.Markup($"else:  {Words.Plain(other)}");
        }

        terminal.Markup($"rule:  {Words.Plain(proposal.Rule)}");
    }

    private void Tell(Objective objective)
    {
        string proved = objective.IsOptimal
            ? "no plan can do with less"
            : FormattableString.Invariant($"no plan can do with less than {objective.Bound:0.##}; whether it can be reached is not known");
        terminal.Markup(FormattableString.Invariant($"[bold]{Words.Plain(objective.Name)}[/]  the plan needs {objective.Value:0.##}: {proved}"));
        terminal.Markup(Words.Plain(ObjectiveMeaning.Of(objective.Name)));
    }

    /// <summary>The page of a finding, or the words of a problem of the layout file; null where there is none of that code.</summary>
    public static string? PageOf(string code)
    {
        if (LayoutRules.All.FirstOrDefault(rule => rule.Code == code) is { } problem)
        {
            return $"# {problem.Code} {problem.Title} (in the layout file)\n\n{problem.Help}\n";
        }

        using Stream? page = Assembly.GetExecutingAssembly().GetManifestResourceStream($"findings/{code}.md");
        if (page is null)
        {
            return null;
        }

        using StreamReader reader = new(page);
        return reader.ReadToEnd();
    }
}
