using System.Collections.Immutable;
using UnitsNet;

namespace WireUp.Layouts.Tracing;

/// <summary>What is to be known of a railway before its lines can be traced.</summary>
public sealed record LineTracing
{
    /// <summary>Most lines of a drawing.</summary>
    public const int MostLines = 20_000;

    /// <summary>Most points of all its lines together.</summary>
    public const int MostPoints = 50_000;

    /// <summary>Most places at which lines end on each other or cross.</summary>
    public const int MostMeetings = 20_000;

    /// <summary>The railway's name.</summary>
    public required string Name { get; init; }

    /// <summary>Scale name from the reference table.</summary>
    public string Scale { get; init; } = "HO";

    /// <summary>How trains are controlled.</summary>
    public ControlSystem Control { get; init; } = ControlSystem.Command;

    /// <summary>Longest train, first to last metal wheel.</summary>
    public required Length LongestTrain { get; init; }

    /// <summary>Ends this near to each other, or to a line, meet: in metres, from 0.001.</summary>
    public double SnapMetres { get; init; } = 0.01;

    /// <summary>Answers to questions, by <see cref="TrackQuestion.Id"/>; a question without one is decided by what is likeliest.</summary>
    public ImmutableDictionary<string, string> Answers { get; init; } = ImmutableDictionary<string, string>.Empty;
}

/// <summary>A layout traced from lines.</summary>
/// <param name="Layout">The layout; its sections are <c>track-1</c>, … in the order of the lines, its turnouts <c>T1</c>, … from left to right.</param>
/// <param name="Questions">What the lines left open, from left to right, with the answer that was taken.</param>
/// <param name="Notes">What was left out or mended, one sentence each without a full stop.</param>
public sealed record TracedLayout(Layout Layout, ImmutableArray<TakenAnswer> Questions, ImmutableArray<string> Notes);

/// <summary>A question with the answer that was taken.</summary>
/// <param name="Question">The question.</param>
/// <param name="Taken">The answer.</param>
/// <param name="WasGiven">Whether somebody gave it.</param>
public sealed record TakenAnswer(TrackQuestion Question, TrackAnswer Taken, bool WasGiven);
