using System.Collections.Immutable;

namespace WireUp.Layouts.Tracing;

/// <summary>What came of an edit of the track. The cases are nested and the list of them is closed.</summary>
public abstract record TrackOutcome
{
    private TrackOutcome()
    {
    }

    /// <summary>The edit is made.</summary>
    /// <param name="Document">The layout file as it is then; it reads without errors.</param>
    /// <param name="Sentence">What was done, one sentence with its full stop.</param>
    public sealed record Done(LayoutDocument Document, string Sentence) : TrackOutcome
    {
        /// <summary>Its whole text.</summary>
        public string Text => Document.Text;

        /// <summary>The pieces that the edit made, in order; empty where it made none.</summary>
        public ImmutableArray<PieceId> Made { get; init; } = [];
    }

    /// <summary>Something must be decided first: make the same edit again with the answer. Nothing was changed.</summary>
    /// <param name="Question">What is to be decided.</param>
    public sealed record Asks(TrackQuestion Question) : TrackOutcome;

    /// <summary>The edit cannot be made. Nothing was changed.</summary>
    /// <param name="Reason">Why, one sentence without a full stop.</param>
    public sealed record Refused(string Reason) : TrackOutcome;
}

/// <summary>Something about the track that lines on paper leave open.</summary>
/// <param name="Id">Names the question among those of the same edit: <c>crossing-1</c>.</param>
/// <param name="Text">The question in words, with its question mark.</param>
/// <param name="Answers">The possible answers, the likeliest first.</param>
/// <param name="At">The place on the plan.</param>
public sealed record TrackQuestion(string Id, string Text, ImmutableArray<TrackAnswer> Answers, PlanPoint At);

/// <summary>A possible answer.</summary>
/// <param name="Word">What is given back to the program: <c>bridge</c>.</param>
/// <param name="Meaning">What it means, for people: <c>one track passes over the other</c>.</param>
public sealed record TrackAnswer(string Word, string Meaning);
