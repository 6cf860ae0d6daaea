using System.Net;
using System.Security.Cryptography;
using System.Text;

namespace WireUp.Web.Hosting;

/// <summary>
/// The door for other machines of the local network. A code, told to whoever started the server and to nobody else, lets in one browser; then the next code is
/// told. What the browser keeps is a key that was drawn for it alone. All of it ends with the program.
/// </summary>
/// <param name="tell">Told the code to join with, at first and each time it is used, and what else happens at the door.</param>
internal sealed class JoinDoor(Action<string> tell)
{
    /// <summary>Wrong codes from one address before it is not heard any more.</summary>
    public const int MostTriesOfOne = 10;

    /// <summary>Wrong codes in all before the door stays shut.</summary>
    public const int MostTries = 100;

    // Without those that are mistaken for others: eight of them are some 10^12 codes.
    private const string Letters = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789";
    private const int CodeLetters = 8;
    private const int KeyBytes = 32;

    private readonly Lock _gate = new();
    private readonly HashSet<string> _keys = new(StringComparer.Ordinal);
    private readonly Dictionary<IPAddress, int> _wrong = [];
    private string _code = "";

    /// <summary>Draws the first code and tells it.</summary>
    public void Open()
    {
        lock (_gate) Draw();
    }

    /// <summary>Trades a code for a key.</summary>
    /// <param name="typed">The code; small letters, spaces and hyphens do not matter.</param>
    /// <param name="from">Where it comes from.</param>
    /// <returns>The key, or null where the code is wrong or no more tries are allowed.</returns>
    public string? Trade(string typed, IPAddress from)
    {
        byte[] given = Encoding.UTF8.GetBytes(Bare(typed));
        lock (_gate)
        {
            if (IsShutFor(from)) return null;
            if (!CryptographicOperations.FixedTimeEquals(given, Encoding.UTF8.GetBytes(_code)))
            {
                Count(from);
                return null;
            }

            string key = Convert.ToHexString(RandomNumberGenerator.GetBytes(KeyBytes));
            _keys.Add(Hash(key));
            tell($"{from} has joined");
            Draw();
            return key;
        }
    }

    /// <summary>Whether no code from an address is looked at any more.</summary>
    public bool IsShut(IPAddress from)
    {
        lock (_gate) return IsShutFor(from);
    }

    /// <summary>Whether a key was given out by this door.</summary>
    public bool Knows(string key)
    {
        lock (_gate) return _keys.Contains(Hash(key));
    }

    private static string Bare(string typed) => string.Concat(typed.Where(letter => letter is not (' ' or '-'))).ToUpperInvariant();

    private static string Hash(string key) => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(key)));

    private bool IsShutFor(IPAddress from) => _code.Length == 0 || _wrong.GetValueOrDefault(from) >= MostTriesOfOne || _wrong.Values.Sum() >= MostTries;

    private void Count(IPAddress from)
    {
        _wrong[from] = _wrong.GetValueOrDefault(from) + 1;
        if (_wrong.Values.Sum() == MostTries) tell($"{MostTries} wrong codes were tried: nobody else can join until 'wireup serve --lan' is started anew");
        else if (_wrong[from] == MostTriesOfOne) tell($"{from} has tried {MostTriesOfOne} wrong codes and is not heard any more");
    }

    private void Draw()
    {
        _code = RandomNumberGenerator.GetString(Letters, CodeLetters);
        tell($"code to join: {_code[..(CodeLetters / 2)]}-{_code[(CodeLetters / 2)..]} (for one browser; the next one is shown here once it is used)");
    }
}
