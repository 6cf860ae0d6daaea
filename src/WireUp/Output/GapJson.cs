using System.Text.Json.Nodes;
using WireUp.Rails;

namespace WireUp.Output;

/// <summary>Why a gap is there, as JSON.</summary>
internal static class GapJson
{
    /// <summary>One gap in one rail.</summary>
    public static JsonObject One(GapPurpose purpose)
    {
        JsonObject turnouts = [];
        foreach ((Layouts.PieceId piece, string position) in purpose.Turnouts)
        {
            turnouts[piece.Name] = position;
        }

        return new JsonObject
        {
            ["at"] = purpose.Gap.At.ToString(),
            ["rail"] = Layouts.RailSides.Word(purpose.Gap.Side),
            ["prevents"] = Word(purpose.Use),
            ["turnouts"] = turnouts,
            ["path"] = ResultJson.Array(GapText.Path(purpose), point => JsonValue.Create(point)),
            ["needed"] = purpose.IsNeeded,
            ["either-of"] = ResultJson.Array(purpose.EitherOf, gap => JsonValue.Create(gap.ToString())),
        };
    }

    /// <summary>What it prevents, in one word.</summary>
    private static string Word(GapUse use) => use switch
    {
        GapUse.Short => "short",
        GapUse.Reversing => "reversing",
        GapUse.Loop => "loop",
        GapUse.Districts => "districts-joined",
        GapUse.Switching => "switching",
        GapUse.Unfed => "feed",
        GapUse.Around => "around",
        GapUse.Nothing => "nothing",
        GapUse.Undecided => "undecided",
        _ => throw new ArgumentOutOfRangeException(nameof(use), use, "not a use of a gap"),
    };
}
