using System.Net;
using System.Text.RegularExpressions;

namespace WireUp.Web.Tests.Support;

/// <summary>Fills in the forms of the list as a browser does: with its cookie and the token of the page.</summary>
internal sealed partial class FormClient : IDisposable
{
    private readonly HttpClient _client;
    private readonly string _token;

    private FormClient(HttpClient client, string token) => (_client, _token) = (client, token);

    public static async Task<FormClient> OpenAsync(Served served)
    {
        HttpClient client = new(new HttpClientHandler { CookieContainer = new(), AllowAutoRedirect = false }) { BaseAddress = served.Address };
        string list = await client.GetStringAsync("/", TestContext.Current.CancellationToken);
        return new(client, WebUtility.HtmlDecode(Token().Match(list).Groups["token"].Value));
    }

    public async Task<HttpStatusCode> PostAsync(string path, MultipartFormDataContent form)
    {
        form.Add(new StringContent(_token), "__RequestVerificationToken");
        using HttpResponseMessage answer = await _client.PostAsync(path, form, TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }

    public void Dispose() => _client.Dispose();

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"(?<token>[^\"]+)\"", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Token();
}
