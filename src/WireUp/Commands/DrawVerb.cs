using System.CommandLine;
using WireUp.Circuits;
using WireUp.Documents;
using WireUp.Documents.Geometry;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Output;
using WireUp.Rails;

namespace WireUp.Commands;

/// <summary><c>wireup draw</c>: the plan as a picture.</summary>
internal sealed class DrawVerb(LayoutFiles files, Terminal terminal)
{
    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<FileInfo> layout = Common.Layout();
        Option<FileInfo> file = new("--out") { Description = "Picture to write: .svg, .png or .pdf.", Required = true };
        Option<DrawingView> view = new("--from")
        {
            Description = "Seen from above, or from below as somebody lying under the benchwork sees it.",
            DefaultValueFactory = _ => DrawingView.Above,
        };
        Option<DrawnFigure?> show = new("--show")
        {
            Description = "What to show along the track in place of the districts: volts under the design load, or fault current against trip.",
        };
        Option<string?> route = new("--route")
        {
            Description = "In place of the plan: volts and fault current along a route, 'yard-1 > T3 > loop@2 m'.",
        };
        Option<LengthStyle?> lengths = Common.Lengths();
        VerbCommand command = new("draw", """
            Draws the plan from above or from below.

            Shown are both rails, gaps, feeders, bus and districts. A layout without a path for its sections is drawn by
            itself, lengths roughly kept.

            Examples:
              wireup draw club.layout.yaml --out club.svg
              wireup draw club.layout.yaml --out under.pdf --from below
              wireup draw club.layout.yaml --out volts.svg --show volts
              wireup draw club.layout.yaml --out along.pdf --route 'yard-1 > loop'
            """)
        {
            layout, file, view, show, route, lengths,
        };
        command.Runs<DrawVerb>((verb, parsed, cancel) => Task.FromResult(verb.Run(
            parsed.GetRequiredValue(layout), parsed.GetRequiredValue(file), new(parsed.GetValue(route), parsed.GetValue(lengths), new() { View = parsed.GetValue(view), Figure = parsed.GetValue(show) }), cancel)));
        return command;
    }

    private int Run(FileInfo source, FileInfo target, Asked asked, CancellationToken cancel)
    {
        Layout layout = files.Read(source).In(asked.Lengths);
        PictureFile.Check(target);
        Scene scene = asked.Route is { } route ? Along(layout, route, cancel) : LayoutDrawing.Draw(layout, asked.Options, cancel);
        PictureFile.Write(target, scene);
        terminal.Note($"wrote {target}");
        return ExitCode.Fine;
    }

    private static Scene Along(Layout layout, string route, CancellationToken cancel) =>
        RoutePlot.Draw(new PlaceQuestions([], [route], null).Followed(RailGraph.Build(layout), PowerOptions.Default)[0], layout, PlanGeometry.Of(layout, cancel));

    /// <summary>What is to be drawn, and how.</summary>
    private sealed record Asked(string? Route, LengthStyle? Lengths, DrawingOptions Options);
}
