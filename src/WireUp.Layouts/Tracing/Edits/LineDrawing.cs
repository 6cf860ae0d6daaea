using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts.Plans;
using WireUp.Layouts.Text;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts.Tracing.Edits;

/// <summary>Adds a drawn line to the track: the section first, then whatever it meets, place by place along the line.</summary>
internal sealed class LineDrawing
{
    private const int MostMeetings = 200;

    private readonly LayoutDocument _document;
    private readonly Layout _layout;
    private readonly double _snapMetres;

    public LineDrawing(LayoutDocument document, Layout layout, double snapMetres) => (_document, _layout, _snapMetres) = (document, layout, snapMetres);

    /// <summary>Draws a line of two different points or more.</summary>
    public TrackOutcome Draw(ImmutableArray<PlanPoint> line, ImmutableDictionary<string, string> answers)
    {
        SnapPlace first = SnapPlace.Of(_layout, line[0], _snapMetres);
        SnapPlace last = SnapPlace.Of(_layout, line[^1], _snapMetres);
        if ((first.Taken ?? last.Taken) is { } taken)
        {
            return new TrackOutcome.Refused($"{taken} leads into trackwork already: end the line on plain track, at least a turnout's length away from there");
        }

        ImmutableArray<PlanPoint> path = Rounded(ThroughOpenEnds(OntoItself([first.At, .. line[1..^1], last.At], last.IsFree)));
        if (path.Distinct().Count() < 2)
        {
            return new TrackOutcome.Refused("the line ends where it begins");
        }

        ImmutableArray<PlanPoint> meetings = Meetings(path);
        if (meetings.Length > MostMeetings)
        {
            return new TrackOutcome.Refused($"the line meets other track, or itself, at more than {MostMeetings} places");
        }

        TextTree tree = new(_document.Text);
        PieceId name = new NewNames(_layout).Next("track-");
        TrackChange change = new()
        {
            Added = [(name, Snippet.Of(("path", PlanText.Of(tree).Path(path))))],
            AddedSections = [name],
        };
        string what = string.Create(CultureInfo.InvariantCulture, $"Added \"{name}\", {Polyline.Length(path):0.00} m");
        return Meet(new TrackOutcome.Done(TrackRewriter.Write(_document, tree, _layout, change), what) { Made = [name] }, meetings, answers);
    }

    /// <summary>Joins what meets at some points of a text, one after the other.</summary>
    public static TrackOutcome Meet(TrackOutcome.Done done, ImmutableArray<PlanPoint> places, ImmutableDictionary<string, string> answers)
    {
        for (int i = 0; i < places.Length; i++)
        {
            if (done.Document.Reading.Layout is not { } layout)
            {
                return new TrackOutcome.Refused(done.Document.Reading.Problems[0].Message);
            }

            switch (new TrackMeeting(done.Document, layout).At(places[i], i + 1, answers))
            {
                case TrackOutcome.Done step:
                    done = done with { Document = step.Document, Sentence = done.Sentence + (step.Sentence.Length == 0 ? "" : $"; {step.Sentence}"), Made = [.. done.Made, .. step.Made] };
                    break;
                case { } other:
                    return other;
            }
        }

        return done with { Sentence = done.Sentence + "." };
    }

    /// <summary>Where a line that returns to itself ends: at a corner of its own way, its beginning among them, or between two.</summary>
    private ImmutableArray<PlanPoint> OntoItself(ImmutableArray<PlanPoint> line, bool endIsFree)
    {
        if (!endIsFree || line.Length < 4)
        {
            return line;
        }

        // What lies within reach of the end along the line is the end's own way, not something it returns to.
        ImmutableArray<PlanPoint> before = Polyline.Part(line, 0, Math.Max(Polyline.Length(line) - (4 * _snapMetres), 0));
        if (before.Distinct().Count() < 2)
        {
            return line;
        }

        PlanPoint corner = before[..^1].MinBy(point => Polyline.Distance(point, line[^1]));
        (double along, double off) = PathPoints.Nearest(before, line[^1]);
        return Polyline.Distance(corner, line[^1]) <= _snapMetres ? line.SetItem(line.Length - 1, corner)
            : off <= _snapMetres ? line.SetItem(line.Length - 1, Polyline.At(before, along).At)
            : line;
    }

    /// <summary>A line that passes open ends of track within reach passes them exactly, so that they are joined to it.</summary>
    private ImmutableArray<PlanPoint> ThroughOpenEnds(ImmutableArray<PlanPoint> line)
    {
        foreach (PlanPoint end in OpenEnds())
        {
            (double along, double off) = PathPoints.Nearest(line, end);
            double whole = Polyline.Length(line);
            if (off <= _snapMetres && along > 2 * _snapMetres && along < whole - (2 * _snapMetres))
            {
                line = [.. Polyline.Part(line, 0, along)[..^1], end, .. Polyline.Part(line, along, whole)[1..]];
            }
        }

        return line;
    }

    private IEnumerable<PlanPoint> OpenEnds()
    {
        LayoutIndex index = new(_layout);
        return _layout.Track.OfType<Piece.Section>().Where(section => section.Path.Length > 1)
            .SelectMany(section => section.Ends.Where(end => index.Opposite(end) is null).Select(end => end.Name == "a" ? TrackPaths.Of(section)[0] : TrackPaths.Of(section)[^1]));
    }

    /// <summary>The points where the new line meets track, crossings in their order first, then its two ends.</summary>
    private ImmutableArray<PlanPoint> Meetings(ImmutableArray<PlanPoint> path)
    {
        double whole = Polyline.Length(path);
        IEnumerable<(PlanPoint At, double Along)> crossings = _layout.Track.OfType<Piece.Section>().Where(section => section.Path.Length > 1)
            .SelectMany(section => PathPoints.Crossings(path, TrackPaths.Of(section)))
            .Concat(PathPoints.Crossings(path, path).Where(crossing => crossing.Other - crossing.One > TrackMeeting.Touching && !AreNeighbours(path, crossing)))
            .Select(crossing => (crossing.At, crossing.One))
            .Concat(OpenEnds().Where(end => path.Any(point => IsNear(point, end))).Select(end => (end, PathPoints.Nearest(path, end).Along)));
        List<PlanPoint> places = [];
        foreach ((PlanPoint at, _) in crossings.OrderBy(crossing => crossing.Along))
        {
            bool atEnd = IsNear(at, path[0]) || IsNear(at, path[^1]);
            if (!atEnd && !places.Any(place => IsNear(place, at))) places.Add(at);
        }

        return [.. places, path[0], .. IsNear(path[0], path[^1]) ? Array.Empty<PlanPoint>() : [path[^1]]];

        static bool IsNear(PlanPoint one, PlanPoint other) => Polyline.Distance(one, other) < 10 * TrackMeeting.Touching;
    }

    /// <summary>Whether a line crosses itself only where one of its strokes ends and the next begins.</summary>
    private static bool AreNeighbours(ImmutableArray<PlanPoint> path, (PlanPoint At, double One, double Other) crossing) =>
        path.Contains(crossing.At) && crossing.Other - crossing.One < 1e-9;

    private static ImmutableArray<PlanPoint> Rounded(ImmutableArray<PlanPoint> path)
    {
        ImmutableArray<PlanPoint> rounded = [.. path.Select(point => new PlanPoint(Math.Round(point.X, 5), Math.Round(point.Y, 5)))];
        return [.. rounded.Where((point, i) => i == 0 || point != rounded[i - 1])];
    }
}
