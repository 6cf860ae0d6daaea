using System.CommandLine;
using System.Globalization;
using WireUp.Files;

namespace WireUp.Commands;

/// <summary>A fault that was cured, as typed.</summary>
/// <param name="Part">The part.</param>
/// <param name="Cure">What was done.</param>
/// <param name="Date">The day, or null for that of the readings.</param>
internal sealed record CureArguments(string Part, string Cure, DateOnly? Date)
{
    /// <summary>The options they stand behind.</summary>
    internal sealed class Options
    {
        private readonly Option<string?> _cured = new("--cured") { Description = "Log this part as cured: 'joint main-7.b/left'. Written into NAME.faults.yaml beside the layout." };
        private readonly Option<string?> _cure = new("--cure") { Description = "What was done: 'soldered a jumper'." };
        private readonly Option<string?> _date = new("--date") { Description = "The day of the cure: 2026-03-01; that of the readings file if left out." };

        /// <summary>Gives a command the options.</summary>
        public void AddTo(Command command)
        {
            command.Options.Add(_cured);
            command.Options.Add(_cure);
            command.Options.Add(_date);
        }

        /// <summary>What was typed, or null where nothing was cured.</summary>
        /// <exception cref="InputRefused">Something is missing or cannot be read.</exception>
        public CureArguments? Of(ParseResult parsed)
        {
            string? cured = parsed.GetValue(_cured), cure = parsed.GetValue(_cure), date = parsed.GetValue(_date);
            return (cured, cure) switch
            {
                (null, null) when date is null => null,
                (null, _) => throw new InputRefused("--cure and --date go with --cured, which names the part"),
                (_, null) => throw new InputRefused("--cured needs --cure 'what was done'"),
                _ => new(cured, cure, date is null ? null : Day(date)),
            };
        }

        private static DateOnly Day(string typed) => DateOnly.TryParseExact(typed, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day)
            ? day
            : throw new InputRefused($"--date '{typed}' is not a day; expected one such as 2026-03-01");
    }
}
