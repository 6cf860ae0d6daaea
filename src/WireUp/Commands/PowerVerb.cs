using System.Collections.Immutable;
using System.CommandLine;
using System.Text.Json.Nodes;
using WireUp.Circuits;
using WireUp.Circuits.Devices;
using WireUp.Circuits.Places;
using WireUp.Circuits.Trains;
using WireUp.Documents;
using WireUp.Documents.Geometry;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Output;
using WireUp.Rails;

namespace WireUp.Commands;

/// <summary><c>wireup power</c>: the layout solved as a circuit.</summary>
internal sealed class PowerVerb(LayoutFiles files, Terminal terminal)
{
    private const int ShownSections = 12;

    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<FileInfo> layout = Common.Layout();
        Option<bool> json = Common.Json();
        Option<string[]> load = new("--load")
        {
            Description = "What is drawn at a place: a current 'loop@1 m=0.5 A', a power '=7 W', a resistance '=30 ohm', or a locomotive or train of the stock '=switcher'. May be given several times.",
        };
        Option<string[]> probe = new("--probe") { Description = "A place whose volts are wanted: 'loop@1 m'. May be given several times." };
        Option<string[]> set = PlaceArguments.SetOption();
        Option<string[]> at = PlaceQuestions.AtOption();
        Option<string[]> route = PlaceQuestions.RouteOption();
        Option<int?> trains = PlaceQuestions.TrainsOption();
        Option<FileInfo?> plot = PlaceQuestions.PlotOption();
        Option<LengthStyle?> lengths = Common.Lengths();
        VerbCommand command = new("power", """
            Solves the layout as a circuit.

            Finds the volts under the design load and the fault current of a coin across the rails, at every point of every rail;
            shows each district's verdict and the worst places.

            Examples:
              wireup power club.layout.yaml
              wireup power club.layout.yaml --load 'loop@1 m=0.5 A' --load 'yard-2@0.3 m=0.1 A' --probe 'spur@0.6 m'
              wireup power club.layout.yaml --set T1=diverging --probe 'siding@0.5 m'
              wireup power club.layout.yaml --at 'loop@1 m' --route 'yard-1 > T3 > loop'
              wireup power club.layout.yaml --at 'loop@3 ft 6 in' --lengths feet
              wireup power club.layout.yaml --trains 6
              wireup power club.layout.yaml --route 'yard-1 > loop' --plot loop.svg
              wireup power club.layout.yaml --session 3h

            Ends with 0 when every coin test passes, 1 when one fails or a part has no result, 2 when the file or a place cannot be read.
            """)
        {
            layout, load, probe, at, route, plot, trains, set, lengths, json,
        };
        command.Runs<PowerVerb>((verb, parsed, cancel) => Task.FromResult(verb.Run(
            parsed.GetRequiredValue(layout),
            new(parsed.GetValue(load) ?? [], parsed.GetValue(probe) ?? [], parsed.GetValue(set) ?? []),
            new(parsed.GetValue(at) ?? [], parsed.GetValue(route) ?? [], parsed.GetValue(trains)),
            (parsed.GetValue(plot), parsed.GetValue(lengths), parsed.GetValue(json)),
            cancel)));
        return command;
    }

    private int Run(FileInfo file, PlaceArguments asked, PlaceQuestions questions, (FileInfo? Plot, LengthStyle? Lengths, bool Json) shown, CancellationToken cancel)
    {
        Layout layout = files.Read(file).In(shown.Lengths);
        if (shown.Plot is not null)
        {
            questions.CheckPlot(shown.Plot);
        }

        PowerOptions options = asked.Options(layout);
        RailGraph graph = RailGraph.Build(layout, options.Places);
        PowerReport report = PowerAnalysis.Solve(graph, options, cancel);
        ImmutableArray<PlaceReport> places = questions.Places(graph, options);
        WorstTrainsReport? worst = questions.Trains(graph, options, cancel);
        ImmutableArray<RoutePower> routes = questions.Followed(graph, options);
        if (shown.Json)
        {
            JsonObject node = PlaceJson.Add(ResultJson.Power(report, MeetingLoads.Of(layout, report), TrainsOverGaps.Of(graph, options.Turnouts)), places, routes);
            ProtectionJson.Add(node, Protection.Of(layout, report));
            terminal.Json(worst is null ? node : TrainJson.Add(node, worst));
        }
        else
        {
            Show(layout, report, worst);
            ProtectionText.Show(terminal, Protection.Of(layout, report));
            ShowTrainsOverGaps(TrainsOverGaps.Of(graph, options.Turnouts), layout.Lengths);
            PlaceText.Show(terminal, places, routes, layout.Lengths);
        }

        if (shown.Plot is { } plot)
        {
            PictureFile.Write(plot, RoutePlot.Draw(routes[0], layout, PlanGeometry.Of(layout, cancel)));
            terminal.Note($"wrote {plot}");
        }

        return report.Problems.IsEmpty && report.Districts.All(district => district.CoinTestPasses) ? ExitCode.Fine : ExitCode.Findings;
    }

    /// <summary>Only where some train would carry a current that a meter can show.</summary>
    private void ShowTrainsOverGaps(IEnumerable<TrainOverGap> trains, LengthStyle lengths)
    {
        const double ShownAmps = 0.01;
        TrainOverGap[] shown = [.. TrainsOverGaps.WorstOfEachPair(trains)
            .Where(train => train.Current.Amperes >= ShownAmps)
            .OrderByDescending(train => train.Current.Amperes)];
        if (shown.Length > 0)
        {
            terminal.Show(Tables.TrainsOverGaps(shown, lengths));
        }
    }

    private void Show(Layout layout, PowerReport report, WorstTrainsReport? worst)
    {
        if (report.Districts.IsEmpty)
        {
            terminal.Markup("No district feeds any rail yet: 'wireup plan' proposes the wiring.");
            return;
        }

        foreach (CircuitProblem problem in report.Problems)
        {
            terminal.Markup($"[bold red]no result[/]: {Words.Plain(layout.Retell(problem.Message))}");
        }

        terminal.Show(Tables.Districts(report, layout.Lengths));
        if (MeetingLoads.Of(layout, report) is { } meeting)
        {
            terminal.Show(Tables.Loads(report, layout.Wiring.Boosters, meeting));
        }

        terminal.Show(Tables.WorstSections(report, ShownSections, layout.Lengths));
        if (worst is not null)
        {
            TrainText.Show(terminal, worst, layout.Lengths);
        }

        if (!report.Places.IsEmpty)
        {
            terminal.Show(Tables.Places(report, layout.Lengths));
        }

        if (!report.Unfed.IsEmpty)
        {
            terminal.Markup($"{Words.Count(report.Unfed.Length, "section", "sections")} without power: "
                + Words.Plain(string.Join(", ", report.Unfed.Select(place => place.Section.Name).Distinct())));
        }
    }
}
