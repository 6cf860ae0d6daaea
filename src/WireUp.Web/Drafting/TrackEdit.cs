using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Tracing;

namespace WireUp.Web.Drafting;

/// <summary>An edit that somebody asks for, made on the layout as it is at that moment, with the answers that were given so far.</summary>
/// <param name="Make">Makes it.</param>
/// <param name="IsLine">Whether it takes in the line that is being drawn, which is cleared once it is done.</param>
public sealed record TrackEdit(Func<LayoutDocument, ImmutableDictionary<string, string>, TrackOutcome> Make, bool IsLine = false)
{
    /// <summary>Ends that lie within this distance meet. Lines drawn on the board are snapped there already.</summary>
    internal const double SnapMetres = 0.008;

    /// <summary>The answers that were given.</summary>
    public ImmutableDictionary<string, string> Answers { get; init; } = ImmutableDictionary<string, string>.Empty;

    /// <summary>An edit that never asks.</summary>
    internal static TrackEdit Of(Func<LayoutDocument, TrackOutcome> make) => new((document, _) => make(document));

    /// <summary>A new line of track.</summary>
    internal static TrackEdit Line(ImmutableArray<PlanPoint> points, bool isDrawn) => new((document, answers) => TrackEdits.AddLine(document, points, SnapMetres, answers), isDrawn);

    /// <summary>Another place for a corner of a section.</summary>
    internal static TrackEdit Corner(PieceId section, int index, PlanPoint to) => new((document, answers) => TrackEdits.MovePoint(document, section, index, to, SnapMetres, answers));

    /// <summary>Another picture underneath.</summary>
    internal static TrackEdit Picture(PlanPicture? picture, string said) => Of(document =>
    {
        try
        {
            return new TrackOutcome.Done(document.WithPicture(picture), said);
        }
        catch (ArgumentException misfit)
        {
            return new TrackOutcome.Refused(misfit.Message);
        }
    });

    /// <summary>The same with an answer more.</summary>
    internal TrackEdit With(string question, string answer) => this with { Answers = Answers.SetItem(question, answer) };
}
